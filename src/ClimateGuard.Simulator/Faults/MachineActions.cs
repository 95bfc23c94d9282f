using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>Something a script does at one machine.</summary>
/// <param name="Machine">Id of the machine.</param>
public abstract record MachineAction(string Machine) : CellAction
{
    internal sealed override void Apply(VirtualCell cell, DateTimeOffset at) => Apply(cell, cell.MachineOf(Machine), at);

    internal abstract void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at);
}

/// <summary>A part is put on the machine, or taken off with an empty serial.</summary>
public sealed record LoadJob(string Machine, string Serial, string Part, string Operation) : MachineAction(Machine)
{
    /// <summary>The true temperature of the part, in °C; null means soaked to 20 °C.</summary>
    public double? TrueCelsius { get; init; }

    /// <summary>Whether the job message says what the part's temperature is.</summary>
    public bool SaysTemperature { get; init; } = true;

    /// <summary>How far what it says is from the truth, in K.</summary>
    public double SaidErrorKelvin { get; init; }

    /// <summary>Where the message says it came from, or null.</summary>
    public string? Origin { get; init; }

    /// <summary>How long the message says it has been in the enclosure.</summary>
    public TimeSpan InCellFor { get; init; }

    /// <summary>The part has lain in the enclosure and is so much warmer than what lies there, in K, instead of <see cref="TrueCelsius"/>; null when it has not.</summary>
    public double? FromShelfKelvin { get; init; }

    /// <summary>Standard uncertainty of what it says, in K.</summary>
    public double SaidUncertaintyKelvin { get; init; } = 0.1;

    /// <summary>Planned time of the finish cut, or null.</summary>
    public TimeSpan? Planned { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        var shelf = FromShelfKelvin is null ? null : cell.Room.FindZone(machine.Machine.Zone);
        var celsius = shelf is null ? TrueCelsius ?? 20.0 : shelf.ShelfCelsius + FromShelfKelvin!.Value;
        cell.Load(machine, Serial, Part, celsius);
        cell.Say(new JobLoaded(at, Machine)
        {
            Serial = Serial,
            Part = Part,
            Operation = Operation,
            Planned = Planned,
            Origin = Origin,
            EnteredCell = Serial.Length == 0 ? null : at - InCellFor,
            Start = SaysTemperature && Serial.Length > 0 ? new Celsius(celsius + SaidErrorKelvin) : null,
            StartUncertainty = SaysTemperature && Serial.Length > 0 ? new Kelvins(SaidUncertaintyKelvin) : null,
        });
    }
}

/// <summary>Coolant is switched over the part.</summary>
public sealed record SwitchCoolant(string Machine, bool On) : MachineAction(Machine)
{
    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        machine.CoolantOn = On;
        cell.Say(new CoolantSwitched(at, Machine, On));
    }
}

/// <summary>The chiller of the tank trips, or comes back.</summary>
public sealed record TripChiller(string Machine, bool Tripped) : MachineAction(Machine)
{
    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Tank is { } tank) tank.ChillerAvailable = !Tripped;
    }
}

/// <summary>The operator blows the part dry.</summary>
public sealed record BlowDry(string Machine) : MachineAction(Machine)
{
    /// <summary>Whether anyone is told.</summary>
    public bool Says { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        machine.Part?.BlowDry();
        if (Says) cell.Say(new CoolantSwitched(at, Machine, On: false, Dry: true));
    }
}

/// <summary>The machine runs or rests whatever the shift says; null goes back to the shift.</summary>
public sealed record RunMachine(string Machine, bool? Running) : MachineAction(Machine)
{
    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at) => machine.Run(Running);
}

/// <summary>A machine draws so many kW more than it did; 0 ends it.</summary>
public sealed record AddMachineHeat(string Machine, double Kilowatts) : MachineAction(Machine)
{
    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at) => machine.ExtraKilowatts = Kilowatts;
}

/// <summary>The datum is probed and the work offset set.</summary>
public sealed record ProbeDatum(string Machine, IReadOnlyList<Axis> Axes) : MachineAction(Machine)
{
    /// <summary>Probes all three axes.</summary>
    public ProbeDatum(string machine)
        : this(machine, [Axis.X, Axis.Y, Axis.Z])
    {
    }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        machine.Probe(Axes);
        cell.Say(new DatumProbed(at, Machine, Axes));
    }
}

/// <summary>A finish cut begins or ends.</summary>
public sealed record MoveCut(string Machine, bool Started, string Operation) : MachineAction(Machine)
{
    /// <summary>The feature, or null for all of the operation.</summary>
    public string? Feature { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (Started) cell.RecordCut(machine, at);
        cell.Say(new CutMoved(at, Machine) { Started = Started, Serial = machine.Part?.Serial ?? "", Operation = Operation, Feature = Feature });
    }
}

/// <summary>The control asks whether a finish cut may start; it does not wait for the answer, because a script cannot.</summary>
public sealed record AskPermit(string Machine, string Operation) : MachineAction(Machine)
{
    /// <summary>The feature, or null for all of the operation.</summary>
    public string? Feature { get; init; }

    /// <summary>Planned time of the cut, or null.</summary>
    public TimeSpan? Planned { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is not { } part) return;
        var id = FormattableString.Invariant($"{part.Serial}-{Operation}-{at.ToUnixTimeSeconds()}");
        cell.RecordAsk(new AskRecord(
            at, id, Machine, part.Serial, part.Part.Number, Feature, Planned ?? FinishTime(part.Part), machine.ProbedAt));
        cell.Say(new PermitRequested(at, Machine)
        {
            Serial = part.Serial,
            Part = part.Part.Number,
            Operation = Operation,
            Feature = Feature,
            Planned = Planned,
            RequestId = id,
            SentAt = at,
        });
    }

    private TimeSpan FinishTime(Part part) =>
        part.Features.Where(f => Feature is null || f.Id == Feature).Aggregate(TimeSpan.Zero, (sum, f) => sum + f.FinishDuration);
}

/// <summary>A person takes the responsibility for a cut.</summary>
public sealed record Override(string Machine, string Operation, string By, string Reason, TimeSpan For) : MachineAction(Machine)
{
    /// <summary>The second person, or null.</summary>
    public string? ApprovedBy { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is not { } part) return;
        cell.Say(new Overridden(at, Machine) { Serial = part.Serial, Operation = Operation, By = By, Reason = Reason, ApprovedBy = ApprovedBy, Until = at + For });
    }
}
