namespace ClimateGuard.Plant;

/// <summary>Makes a part with its features from a checked draft.</summary>
internal static class PartBuilder
{
    public static Part Build(PartDraft part, string path, IReadOnlyDictionary<string, Material> materials, DefaultsTaken taken)
    {
        var number = CellBuilder.Stated(part.Number, $"{path}/number");
        var material = CellBuilder.Stated(part.Material, $"{path}/material");
        var volumeToArea = CellBuilder.Stated(part.VolumeToAreaMm, $"{path}/volumeToAreaMm");
        var partClass = taken.Or(part.Class, $"{path}/class", PartClass.Standard);
        return new Part
        {
            Number = number,
            Name = taken.Or(part.Name, $"{path}/name", number),
            Material = materials.TryGetValue(material, out var known)
                ? known
                : throw new ArgumentException(PlantMessages.UnknownReference("material", material, [.. materials.Keys])),
            MassKilograms = part.MassKg,
            VolumeToAreaMillimetres = volumeToArea,
            Shape = taken.Or(part.Shape, $"{path}/shape", PartShape.Slab),
            HalfThicknessMillimetres = taken.Or(part.HalfThicknessMm, $"{path}/halfThicknessMm", volumeToArea),
            Class = partClass,
            Machines = CellBuilder.Each(part.Machines, $"{path}/machines", taken, (id, _) => id),
            HeatTransfer = Heat(part.HeatTransfer ?? new HeatTransferDraft(), $"{path}/heatTransfer", taken),
            Features = CellBuilder.Each(part.Features, $"{path}/features", taken, (f, at) => Feature(f, at, partClass, taken)),
        };
    }

    private static HeatTransfer Heat(HeatTransferDraft heat, string path, DefaultsTaken taken)
    {
        var standIn = new HeatTransfer();
        return new HeatTransfer
        {
            Air = taken.Or(heat.Air, $"{path}/air", standIn.Air),
            Fan = taken.Or(heat.Fan, $"{path}/fan", standIn.Fan),
            Mist = taken.Or(heat.Mist, $"{path}/mist", standIn.Mist),
            Flood = taken.Or(heat.Flood, $"{path}/flood", standIn.Flood),
            Submerged = taken.Or(heat.Submerged, $"{path}/submerged", standIn.Submerged),
            Pallet = taken.Or(heat.Pallet, $"{path}/pallet", standIn.Pallet),
        };
    }

    private static Feature Feature(FeatureDraft feature, string path, PartClass partClass, DefaultsTaken taken)
    {
        var id = CellBuilder.Stated(feature.Id, $"{path}/id");
        var tolerance = CellBuilder.Stated(feature.ToleranceMm, $"{path}/toleranceMm");
        var budget = Budget(feature, path, partClass, taken);
        Feature built = CellBuilder.Stated(feature.Kind, $"{path}/kind") switch
        {
            FeatureKind.Size => new SizeFeature
            {
                Id = id, ToleranceMillimetres = tolerance, Budget = budget, NominalMillimetres = Nominal(feature, path),
            },
            FeatureKind.Depth => new DepthFeature
            {
                Id = id, ToleranceMillimetres = tolerance, Budget = budget, NominalMillimetres = Nominal(feature, path),
                Axis = taken.Or(feature.Axis, $"{path}/axis", Axis.Z),
            },
            FeatureKind.Distance => new DistanceFeature
            {
                Id = id, ToleranceMillimetres = tolerance, Budget = budget, NominalMillimetres = Nominal(feature, path),
                Axis = taken.Or(feature.Axis, $"{path}/axis", Axis.X),
            },
            FeatureKind.Position => Position(feature, path, id, tolerance, budget, taken),
            _ => new CoaxialityFeature { Id = id, ToleranceMillimetres = tolerance, Budget = budget },
        };
        var usual = feature.Kind is FeatureKind.Coaxiality ? CuttingStrategy.TwoSided : CuttingStrategy.Interpolated;
        return built with
        {
            Strategy = taken.Or(feature.Strategy, $"{path}/strategy", usual),
            Modifier = taken.Or(feature.Modifier, $"{path}/modifier", MaterialCondition.Rfs),
            FinishDuration = TimeSpan.FromMinutes(taken.Or(feature.FinishMinutes, $"{path}/finishMinutes", 15.0)),
            FixturePin = EffectTermBuilder.Pin(feature.FixturePin, $"{path}/fixturePin", taken),
            Bending = EffectTermBuilder.Bend(feature.Bending, $"{path}/bending", taken),
            Bolted = EffectTermBuilder.Plate(feature.Bolted, $"{path}/bolted", taken),
        };
    }

    private static PositionFeature Position(
        FeatureDraft feature, string path, string id, double tolerance, BudgetRule budget, DefaultsTaken taken)
    {
        var circle = feature.BoltCircle is { } stated ? Circle(stated, $"{path}/boltCircle", taken) : null;
        return new PositionFeature
        {
            Id = id,
            ToleranceMillimetres = tolerance,
            Budget = budget,
            Datum = taken.Or(feature.Datum, $"{path}/datum", DatumKind.Axis),
            Circle = circle,
            Points = circle?.Points() ?? [.. CellBuilder.Stated(feature.Points, $"{path}/points")
                .Select((pair, i) => pair is [{ } x, { } y]
                    ? new PatternPoint(x, y)
                    : throw new ArgumentException($"{path}/points/{i} is not a pair of numbers"))],
        };
    }

    private static BoltCircle Circle(BoltCircleDraft circle, string path, DefaultsTaken taken) => new(
        CellBuilder.Stated(circle.RadiusMm, $"{path}/radiusMm"),
        (int)CellBuilder.Stated(circle.Count, $"{path}/count"),
        taken.Or(circle.FirstAngleDeg, $"{path}/firstAngleDeg", 0.0));

    private static double Nominal(FeatureDraft feature, string path) => CellBuilder.Stated(feature.NominalMm, $"{path}/nominalMm");

    private static BudgetRule Budget(FeatureDraft feature, string path, PartClass partClass, DefaultsTaken taken) => feature.BudgetUm is { } micrometres
        ? BudgetRule.Absolute(micrometres)
        : BudgetRule.OfTolerance(taken.Or(feature.BudgetShare, $"{path}/budgetShare", BudgetRule.DefaultShareFor(partClass)));
}
