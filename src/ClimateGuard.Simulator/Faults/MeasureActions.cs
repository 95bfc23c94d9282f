using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The part's surface is touched with a thermometer.</summary>
public sealed record MeasureContact(string Machine) : MachineAction(Machine)
{
    /// <summary>Standard uncertainty, in K; the true error is drawn with it.</summary>
    public double UncertaintyKelvin { get; init; } = 0.1;

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is not { } part) return;
        var value = part.SurfaceCelsius + (UncertaintyKelvin * cell.Chance.Normal());
        cell.Say(new ContactMeasured(at, Machine) { Value = new Celsius(value), Uncertainty = new Kelvins(UncertaintyKelvin) });
    }
}

/// <summary>The unmoved datum is probed again; the work offset stays.</summary>
public sealed record ReprobeDatum(string Machine, Axis Axis) : MachineAction(Machine)
{
    /// <summary>Standard uncertainty, in µm; the true error is drawn with it.</summary>
    public double UMicrometres { get; init; } = 1.4;

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        // The tool has come closer by the drift, so the unmoved datum reads that much less.
        var delta = -machine.SinceProbing.Along(Axis) + (UMicrometres * cell.Chance.Normal());
        cell.Say(new DatumReprobed(at, Machine) { Axis = Axis, DeltaMicrometres = delta, UMicrometres = UMicrometres });
    }
}

/// <summary>A known length on the part is probed.</summary>
public sealed record ProbeSpan(string Machine, double LengthMillimetres) : MachineAction(Machine)
{
    /// <summary>Standard uncertainty, in µm; the true error is drawn with it.</summary>
    public double UMicrometres { get; init; } = 1.4;

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is null) return;
        var error = (-machine.StrainMicrometresPerMetre * LengthMillimetres / 1000.0) + (UMicrometres * cell.Chance.Normal());
        cell.Say(new SpanProbed(at, Machine) { LengthMillimetres = LengthMillimetres, ErrorMicrometres = error, UMicrometres = UMicrometres });
    }
}
