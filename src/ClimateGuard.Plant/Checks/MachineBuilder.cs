namespace ClimateGuard.Plant;

/// <summary>Makes a machine from a checked draft.</summary>
internal static class MachineBuilder
{
    public static Machine Build(MachineDraft machine, string path, IReadOnlyList<Zone> zones, DefaultsTaken taken)
    {
        var standIn = new Machine { Id = "", Zone = "" };
        var id = CellBuilder.Stated(machine.Id, $"{path}/id");
        return new Machine
        {
            Id = id,
            Name = taken.Or(machine.Name, $"{path}/name", id),
            Kind = taken.Or(machine.Kind, $"{path}/kind", standIn.Kind),
            Zone = taken.Or(machine.Zone, $"{path}/zone", zones.Count > 0 ? zones[0].Id : ""),
            EnvelopeMillimetres = [.. (machine.EnvelopeMm ?? []).Select((v, i) => CellBuilder.Stated(v, $"{path}/envelopeMm/{i}"))],
            AccuracyMicrometres = machine.AccuracyUm,
            Scale = Scale(machine.Scale ?? new ScaleDraft(), $"{path}/scale", standIn.Scale, taken),
            PartCompensated = taken.Or(machine.PartCompensated, $"{path}/partCompensated", false),
            CoolantSensor = machine.Coolant,
            CoolantMedium = taken.Or(machine.CoolantMedium, $"{path}/coolantMedium", standIn.CoolantMedium),
            IndexAxis = taken.Or(machine.IndexAxis, $"{path}/indexAxis", standIn.IndexAxis),
            StorageSensor = machine.Storage,
            RatePerHour = machine.RatePerHour,
            Drift = CellBuilder.Each(machine.Drift, $"{path}/drift", taken, (d, at) => Drift(d, at, taken)),
            Spindle = CellBuilder.Each(machine.Spindle, $"{path}/spindle", taken, Spindle),
        };
    }

    private static Scale Scale(ScaleDraft scale, string path, Scale standIn, DefaultsTaken taken) => new()
    {
        AlphaMicrometresPerMetreKelvin = taken.Or(scale.Alpha, $"{path}/alpha", standIn.AlphaMicrometresPerMetreKelvin),
        UAlphaMicrometresPerMetreKelvin = taken.Or(scale.UAlpha, $"{path}/uAlpha", standIn.UAlphaMicrometresPerMetreKelvin),
        TimeConstant = TimeSpan.FromMinutes(
            taken.Or(scale.TimeConstantMin, $"{path}/timeConstantMin", standIn.TimeConstant.TotalMinutes)),
        Compensated = taken.Or(scale.Compensated, $"{path}/compensated", false),
        Screw = EffectTermBuilder.Screw(scale.Screw, $"{path}/screw", taken),
    };

    private static DriftMode Drift(DriftDraft drift, string path, DefaultsTaken taken) => new(
        CellBuilder.Stated(drift.Axis, $"{path}/axis"),
        CellBuilder.Stated(drift.SensitivityUmPerK, $"{path}/sensitivityUmPerK"),
        TimeSpan.FromHours(CellBuilder.Stated(drift.TimeConstantH, $"{path}/timeConstantH")),
        taken.Or(drift.RelativeUncertainty, $"{path}/relativeUncertainty", 0.3),
        taken.Or(drift.Provenance, $"{path}/provenance", Provenance.Default));

    private static SpindleMode Spindle(SpindleDraft spindle, string path) => new(
        CellBuilder.Stated(spindle.Axis, $"{path}/axis"),
        CellBuilder.Stated(spindle.FullUm, $"{path}/fullUm"),
        TimeSpan.FromMinutes(CellBuilder.Stated(spindle.TimeConstantMin, $"{path}/timeConstantMin")));
}
