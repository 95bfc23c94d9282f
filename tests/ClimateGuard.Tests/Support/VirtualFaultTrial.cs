using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Support;

/// <summary>Four healthy days of the virtual cell and a fifth with one fault on it; the diagnosis sees the readings alone.</summary>
internal sealed class VirtualFaultTrial
{
    private static readonly TimeSpan Day = TimeSpan.FromDays(1);
    private static readonly DateTimeOffset Monday = new(2026, 5, 31, 22, 0, 0, TimeSpan.Zero); // 1 June 2026, 00:00 in Vienna
    private readonly Cell cell;
    private readonly int seed;
    private readonly List<Reading> healthy = [];

    public VirtualFaultTrial(int seed, bool special)
    {
        this.seed = seed;
        IsSpecial = special;
        cell = special ? Special() : Sample();
        Play(Monday, 4, Always(4), healthy);
    }

    /// <summary>Whether the north unit is one of direct expansion, the south one takes outdoor air.</summary>
    public bool IsSpecial { get; }

    /// <summary>The findings of the healthy days, by day.</summary>
    public DiagnosisReport Healthy() => Diagnosed(healthy);

    /// <summary>The findings of the fifth day, the likeliest first.</summary>
    public IReadOnlyList<Finding> Faulty(string code)
    {
        var readings = new List<Reading>(healthy);
        var (target, from, until) = Place(code);
        Play(Monday + (4 * Day), 1, [.. Always(1), .. FaultCatalogue.Script(cell, code, target, TimeSpan.FromHours(from), TimeSpan.FromHours(until))], readings);
        var friday = DateOnly.FromDateTime((Monday + (4 * Day) + TimeSpan.FromHours(3)).Date);
        return [.. Diagnosed(readings).Findings.Where(f => f.Day == friday).OrderByDescending(f => f.LogOdds)];
    }

    private (string Target, double From, double Until) Place(string code) => FaultCatalogue.Of(code).Target switch
    {
        FaultTarget.Zone => ("S", 3, 24),
        FaultTarget.Sensor => ("air/n2", code == "F18" ? 9 : 3, code == "F18" ? 17 : 24),
        FaultTarget.Machine => ("M3", 8, 18),
        FaultTarget.Door => ("door/roller", 10, 10.8),
        FaultTarget.Cell => (cell.Id, code == "F30" ? 10 : 4, 22),
        FaultTarget.DirectExpansion => ("ahu1", 2, 24),
        FaultTarget.OutdoorAir => ("ahu2", 2, 24),
        _ => (code == "F07" ? "ahu1" : "ahu2", code == "F34" ? 0 : 3, code == "F12" ? 6 : 24),
    };

    // Each morning of the special cell the fans stand for an hour and a half, as in a set-back: wind-up shows only then.
    private List<TimedAction> Always(int days)
    {
        var actions = new List<TimedAction>();
        for (var day = 0; day < days; day++)
        {
            actions.Add(new(TimeSpan.FromHours((24 * day) + 5), new SwitchFan("ahu2", false)));
            actions.Add(new(TimeSpan.FromHours((24 * day) + 6.5), new SwitchFan("ahu2", true)));
        }

        return IsSpecial ? actions : [];
    }

    private DiagnosisReport Diagnosed(List<Reading> readings)
    {
        var builder = new FrameBuilder(cell);
        foreach (var reading in readings) builder.Add(reading);
        return Diagnosis.Of(builder.Build(), cell, new DiagnosisOptions
        {
            ByDay = true, TimeZone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone),
        });
    }

    private void Play(DateTimeOffset start, int days, IReadOnlyList<TimedAction> actions, List<Reading> into)
    {
        var virtualCell = new VirtualCell(cell, new VirtualCellOptions(seed, start, Script.Once(actions)));
        virtualCell.Advance(start + (days * Day), reading => into.Add(reading), _ => { });
    }

    private static Cell Sample() =>
        PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("config/plant.yaml does not pass its checks");

    private static Cell Special()
    {
        var sample = Sample().Description;
        var mixed = new Sensor { Id = "ahu2/mixed", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Mixed, AirHandler = "ahu2", PlausibleLow = -20 };
        var damper = new Sensor { Id = "ahu2/damper", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, AirHandler = "ahu2", PlausibleLow = 0, PlausibleHigh = 1, Uncertainty = 0.002 };
        var running = new Sensor { Id = "ahu1/compressor", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, AirHandler = "ahu1", PlausibleLow = 0, PlausibleHigh = 1, Uncertainty = 0.002 };
        AirHandler first = sample.AirHandlers[0], second = sample.AirHandlers[1];
        return new Cell(sample with
        {
            Sensors = [.. sample.Sensors, mixed, damper, running],
            AirHandlers =
            [
                first with { Medium = CoolingMedium.DirectExpansion, Points = With(first, ("compressor", running.Id), ("outdoor", "outdoor/t")) },
                second with { OutdoorAir = true, Points = With(second, ("mixed", mixed.Id), ("damperCommand", damper.Id), ("outdoor", "outdoor/t")) },
            ],
        });
    }

    private static Dictionary<string, string> With(AirHandler handler, params (string Role, string Sensor)[] more)
    {
        var points = new Dictionary<string, string>(handler.Points);
        foreach (var (role, sensor) in more) points[role] = sensor;
        return points;
    }
}
