using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A shop that knows the truth: it asks, and it cuts only when the part is truly within its budget; else it waits, and in the end gives up.</summary>
/// <remarks>
/// While it waits the machine stands as it stood, so that the truth of waiting is known for as long as it waits. It asks again each half hour,
/// and before it starts. The part is taken off afterwards.
/// </remarks>
public sealed record FinishWhenSafe(string Machine, string Operation, TimeSpan Duration, TimeSpan Patience) : MachineAction(Machine)
{
    private static readonly TimeSpan Look = TimeSpan.FromMinutes(5);

    /// <summary>The feature, or null for all of the operation.</summary>
    public string? Feature { get; init; }

    /// <summary>How long it has waited so far.</summary>
    public TimeSpan Waited { get; init; }

    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is not { } part) return;
        var safe = machine.Truth().Where(t => Feature is null || t.Feature == Feature).All(t => Math.Abs(t.EffectMicrometres) <= Budget(part.Part, t.Feature));
        if (safe || Waited.TotalMinutes % 30 < 0.5)
            new AskPermit(Machine, Operation) { Feature = Feature, Planned = Duration }.Apply(cell, at);
        if (safe)
        {
            cell.Later(at + TimeSpan.FromSeconds(30), new MoveCut(Machine, true, Operation) { Feature = Feature });
            cell.Later(at + TimeSpan.FromSeconds(30) + Duration, new MoveCut(Machine, false, Operation) { Feature = Feature });
            cell.Later(at + Duration + TimeSpan.FromMinutes(2), new LoadJob(Machine, "", "", ""));
        }
        else if (Waited >= Patience) cell.Later(at + Look, new LoadJob(Machine, "", "", ""));
        else cell.Later(at + Look, this with { Waited = Waited + Look });
    }

    private static double Budget(Part part, string feature)
    {
        var found = part.Features.First(f => f.Id == feature);
        return found.Budget.MicrometresFor(found.ToleranceMillimetres);
    }
}

/// <summary>Something happened that physics does not show, or that somebody should be told of: kept with its time.</summary>
public sealed record Announce(string Code, string Text) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.Tell(new Announcement(at, Code, Text));
}

/// <summary>What a story says of itself: the truth behind the signals, for whoever looks on.</summary>
public sealed record Announcement(DateTimeOffset Time, string Code, string Text);

/// <summary>The chiller of a tank is set to another temperature, in °C.</summary>
public sealed record SetTank(string Machine, double Celsius) : MachineAction(Machine)
{
    internal override void Apply(VirtualCell cell, VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Tank is { } tank) tank.SetpointCelsius = Celsius;
    }
}

/// <summary>Another action, some time later.</summary>
public sealed record Afterwards(TimeSpan Delay, CellAction Action) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.Later(at + Delay, Action);
}
