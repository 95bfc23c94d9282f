namespace ClimateGuard.Plant;

/// <summary>Makes what acts on a feature besides mismatch and drift from a checked draft.</summary>
internal static class EffectTermBuilder
{
    public static FixturePin? Pin(FixturePinDraft? pin, string path, DefaultsTaken taken)
    {
        if (pin is null)
        {
            return null;
        }

        var built = new FixturePin { DistanceMillimetres = CellBuilder.Stated(pin.DistanceMm, $"{path}/distanceMm") };
        return built with
        {
            Axis = taken.Or(pin.Axis, $"{path}/axis", built.Axis),
            AlphaMicrometresPerMetreKelvin = taken.Or(pin.Alpha, $"{path}/alpha", built.AlphaMicrometresPerMetreKelvin),
            UAlphaMicrometresPerMetreKelvin = taken.Or(pin.UAlpha, $"{path}/uAlpha", built.UAlphaMicrometresPerMetreKelvin),
        };
    }

    public static GradientBend? Bend(GradientBendDraft? bend, string path, DefaultsTaken taken)
    {
        if (bend is null)
        {
            return null;
        }

        var built = new GradientBend
        {
            Body = CellBuilder.Stated(bend.Body, $"{path}/body"),
            LengthMillimetres = CellBuilder.Stated(bend.LengthMm, $"{path}/lengthMm"),
            ThicknessMillimetres = CellBuilder.Stated(bend.ThicknessMm, $"{path}/thicknessMm"),
            AcrossKelvins = CellBuilder.Stated(bend.AcrossK, $"{path}/acrossK"),
            AlphaMicrometresPerMetreKelvin = bend.Alpha,
        };
        return built with
        {
            Axis = taken.Or(bend.Axis, $"{path}/axis", built.Axis),
            RelativeUncertainty = taken.Or(bend.RelativeUncertainty, $"{path}/relativeUncertainty", built.RelativeUncertainty),
        };
    }

    public static BoltedPlate? Plate(BoltedPlateDraft? plate, string path, DefaultsTaken taken)
    {
        if (plate is null)
        {
            return null;
        }

        var built = new BoltedPlate
        {
            LengthMillimetres = CellBuilder.Stated(plate.LengthMm, $"{path}/lengthMm"),
            PartThicknessMillimetres = CellBuilder.Stated(plate.PartThicknessMm, $"{path}/partThicknessMm"),
            SubplateThicknessMillimetres = CellBuilder.Stated(plate.SubplateThicknessMm, $"{path}/subplateThicknessMm"),
        };
        return built with
        {
            PartModulusGigapascals = taken.Or(plate.PartModulusGpa, $"{path}/partModulusGpa", built.PartModulusGigapascals),
            SubplateModulusGigapascals = taken.Or(plate.SubplateModulusGpa, $"{path}/subplateModulusGpa", built.SubplateModulusGigapascals),
            SubplateAlphaMicrometresPerMetreKelvin =
                taken.Or(plate.SubplateAlpha, $"{path}/subplateAlpha", built.SubplateAlphaMicrometresPerMetreKelvin),
            BoltedAtCelsius = taken.Or(plate.BoltedAtC, $"{path}/boltedAtC", built.BoltedAtCelsius),
            RelativeUncertainty = taken.Or(plate.RelativeUncertainty, $"{path}/relativeUncertainty", built.RelativeUncertainty),
        };
    }

    public static Screw? Screw(ScrewDraft? screw, string path, DefaultsTaken taken)
    {
        if (screw is null)
        {
            return null;
        }

        var built = new Screw { FixedBearingMillimetres = CellBuilder.Stated(screw.FixedBearingMm, $"{path}/fixedBearingMm") };
        return built with
        {
            Axis = taken.Or(screw.Axis, $"{path}/axis", built.Axis),
            RiseKelvins = taken.Or(screw.RiseK, $"{path}/riseK", built.RiseKelvins),
        };
    }
}
