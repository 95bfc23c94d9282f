using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A week drawn from stated distributions: weather, set-back, faults, jobs, operators.</summary>
/// <remarks>
/// Invented shares: hall mean N(23, 1.5) °C within 19 to 27 and swing 2 to 5 K; each day is a heat day with 20 %; a week-end set-back in 70 % of
/// weeks, 0.5 to 2.6 K, ended on Monday between 04:00 and 05:30; two to five faults of half to one and a half times the usual size for half an
/// hour to eight hours; one job a machine and shift. Operators say in four of five cases what they measured, since when a blank is in the
/// enclosure, and that they blew a part dry.
/// </remarks>
public sealed class RandomWeek
{
    private const string Finish = "40";
    private static readonly string[] Likely =
    [
        "F01", "F03", "F04", "F05", "F06", "F07", "F08", "F09", "F12", "F13", "F14", "F15", "F16", "F16", "F17", "F18", "F20", "F21", "F22",
        "F23", "F25", "F30", "F31", "F32", "F32", "F32", "F33",
    ];

    private readonly List<TimedAction> story = [];
    private readonly List<string> faults = [];
    private readonly Cell cell;
    private readonly Chance chance;
    private readonly Chance? telling;
    private readonly double? setBack;

    private RandomWeek(Cell cell, int seed, bool silent)
    {
        this.cell = cell;
        chance = new Chance(seed, "random week");
        telling = silent ? null : new Chance(seed, "what is said");
        setBack = chance.Uniform() < 0.7 ? 0.5 + (2.1 * chance.Uniform()) : null;
        var climate = Climate();
        SetBack();
        var count = 2 + (int)(4 * chance.Uniform());
        for (var i = 0; i < count; i++) Fault();
        Jobs();
        Options = new VirtualCellOptions(seed, DemoScripts.MondayMidnight(cell), Script.Once(story))
        {
            Climate = climate, KeepsTruth = true, PastSetpointCelsius = setBack is { } kelvin ? cell.Zones[0].Setpoint.Value + kelvin : null,
        };
    }

    /// <summary>How to make the cell that lives it; it keeps its truth.</summary>
    public VirtualCellOptions Options { get; }

    /// <summary>What happens in it, by time since its Monday 00:00.</summary>
    public IReadOnlyList<TimedAction> Story => story;

    /// <summary>The faults in it, in words: number, target, begin and length.</summary>
    public IReadOnlyList<string> Faults => faults;

    /// <summary>Draws the week of a seed.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="silent">Nobody says since when a blank is in the enclosure, nor that a part was blown dry; the same happens.</param>
    public static RandomWeek Of(Cell cell, int seed, bool silent = false)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return new RandomWeek(cell, seed, silent);
    }

    private HallClimate Climate() => new()
    {
        HallMeanCelsius = Math.Clamp(23 + (1.5 * chance.Normal()), 19, 27),
        HallSwingKelvin = 2 + (3 * chance.Uniform()),
        OutdoorMeanCelsius = 5 + (17 * chance.Uniform()),
        HeatWave = Enum.GetValues<DayOfWeek>().Where(_ => chance.Uniform() < 0.2).ToHashSet(),
    };

    private void SetBack()
    {
        if (setBack is not { } kelvin) return;
        var ends = TimeSpan.FromHours(4 + (1.5 * chance.Uniform()));
        foreach (var zone in cell.Zones)
        {
            story.Add(new TimedAction(ends, new MoveSetpoint(zone.Id, zone.Setpoint.Value)));
            story.Add(new TimedAction(TimeSpan.FromHours((5 * 24) + 14.5), new MoveSetpoint(zone.Id, zone.Setpoint.Value + kelvin)));
        }
    }

    private void Fault()
    {
        var kind = FaultCatalogue.Of(Likely[(int)(chance.Uniform() * Likely.Length)]);
        string[] targets = [.. Targets(kind.Target).Where(t => kind.Fits(cell, t))];
        if (targets.Length == 0) return;
        var target = targets[(int)(chance.Uniform() * targets.Length)];
        var from = TimeSpan.FromHours(6 + (chance.Uniform() * 125));
        var hours = Math.Exp(Math.Log(0.5) + (chance.Uniform() * Math.Log(16)));
        var size = 0.5 + chance.Uniform();

        // A door stands open for minutes; a fan that stands is found within the hour.
        if (kind.Code is "F16" or "F12") hours = 0.05 + (0.5 * chance.Uniform());
        story.AddRange(FaultCatalogue.Script(cell, kind.Code, target, from, from + TimeSpan.FromHours(hours), size));
        faults.Add(FormattableString.Invariant($"{kind.Code} {target} from hour {from.TotalHours:0.0} for {hours:0.0} h"));
    }

    private IEnumerable<string> Targets(FaultTarget target) => target switch
    {
        FaultTarget.Zone => cell.Zones.Select(z => z.Id),
        FaultTarget.Machine => cell.Machines.Select(m => m.Id),
        FaultTarget.Cell => [cell.Id],
        FaultTarget.Sensor => cell.Sensors.Where(s => s is { Place: SensorPlace.Air, Zone: not null } or { Place: SensorPlace.Coolant }).Select(s => s.Id),
        FaultTarget.Door => cell.Sensors.Where(s => s.Place == SensorPlace.Door).Select(s => s.Id),
        _ => cell.Description.AirHandlers.Select(a => a.Id),
    };

    private void Jobs()
    {
        var number = 1;
        foreach (var machine in cell.Machines)
        {
            var parts = cell.Parts.Where(p => p.Machines.Contains(machine.Id)).ToArray();
            if (parts.Length == 0) continue;
            for (var shift = 0; shift < 11; shift++)
            {
                var begin = TimeSpan.FromDays(shift / 2) + TimeSpan.FromHours(6 + (8 * (shift % 2)));
                var part = parts[(int)(chance.Uniform() * parts.Length)];
                var plan = new JobPlan(machine, part, FormattableString.Invariant($"{part.Number}-{1000 + number++}"), Finish, begin);
                var slack = TimeSpan.FromHours(8) - plan.Longest;
                var shifted = plan with { From = begin + (slack * chance.Uniform()) };
                story.AddRange(shifted.Actions(chance, origin: null, telling));
            }
        }
    }
}
