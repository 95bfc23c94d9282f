using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Worker.Pages;

/// <summary>An invented cell with a machine at every level: for tests and for looking at the pages.</summary>
public static class InventedCell
{
    /// <summary>Thursday 26 November 2026, 10:05 in Vienna.</summary>
    public static readonly DateTimeOffset TenPastTen = new(2026, 11, 26, 9, 5, 0, TimeSpan.Zero);

    /// <summary>The cell.</summary>
    public static Cell Cell { get; } = new(new CellDescription
    {
        Id = "cell4",
        Name = "Cell 4",
        TimeZone = "Europe/Vienna",
        Zones = [new Zone { Id = "south", AirHandlers = ["ahu2"] }],
        Sensors =
        [
            Sensor("air/s1", SensorPlace.Air) with { Zone = "south" },
            Sensor("air/s4", SensorPlace.Air) with { Zone = "south" },
            Sensor("m3/coolant", SensorPlace.Coolant) with { Machine = "M3" },
            Sensor("m5/dielectric", SensorPlace.Dielectric) with { Machine = "M5" },
            Sensor("ahu2/supply", SensorPlace.Supply) with { AirHandler = "ahu2" },
            Sensor("chw/supply", SensorPlace.ChilledWater),
            new Sensor { Id = "door/roller", Quantity = SensorQuantity.Contact, Place = SensorPlace.Door, Zone = "south", Unit = "open" },
        ],
        Machines =
        [
            new Machine { Id = "M1", Kind = "5-axis mill", Zone = "south" },
            new Machine { Id = "M2", Kind = "5-axis horizontal", Zone = "south" },
            new Machine { Id = "M3", Kind = "mill-turn", Zone = "south", CoolantSensor = "m3/coolant" },
            new Machine { Id = "M4", Kind = "gantry", Zone = "south" },
            new Machine { Id = "M5", Kind = "wire erosion", Zone = "south", CoolantSensor = "m5/dielectric" },
            new Machine { Id = "M6", Kind = "universal grinder", Zone = "south" },
            new Machine { Id = "M7", Kind = "5-axis mill", Zone = "south" },
        ],
        Parts = [Disc, Carrier, Ring, Plate, Housing],
    });

    private static Material Steel => new()
    {
        Id = "steel",
        AlphaMicrometresPerMetreKelvin = 11.6,
        ConductivityWattsPerMetreKelvin = 38,
        DensityKilogramsPerCubicMetre = 7800,
        SpecificHeatJoulesPerKilogramKelvin = 470,
    };

    private static Part Disc => Part("FD-1100", Circle("pattern", 24, 450, 0.060, 18), Size("pilot", 700, 0.020, 6));

    private static Part Carrier => Part("PC-620", Circle("bores", 5, 190, 0.025, 7.5));

    private static Part Ring => Part(
        "VR-780", Size("groove", 690, 0.025, 7.5), Circle("flange-holes", 32, 365, 0.080, 24),
        new DepthFeature { Id = "groove-depth", NominalMillimetres = 6, ToleranceMillimetres = 0.020, Budget = BudgetRule.Absolute(6) });

    private static Part Plate => Part("LD-320", Circle("openings", 36, 150, 0.008, 2.4));

    private static Part Housing => Part(
        "PH-340",
        new DistanceFeature { Id = "bores", NominalMillimetres = 112.5, ToleranceMillimetres = 0.012, Budget = BudgetRule.Absolute(3.6) });

    /// <summary>The cell at a moment, a machine at every level.</summary>
    /// <param name="time">The moment; the trace ends there.</param>
    /// <param name="wobble">Moves the numbers a little, so that a screen can be seen to follow; in µm.</param>
    public static CellSnapshot At(DateTimeOffset time, double wobble = 0) => new()
    {
        Cell = Cell,
        ConfigVersion = "invented",
        Time = time,
        Machines = [.. Cell.Machines.Select(machine => Snapshot(machine, time, wobble))],
        Sensors =
        [
            new SensorSnapshot(Cell.Sensors[0], time.AddSeconds(-4), 20.02, SensorState.Fresh, null),
            new SensorSnapshot(Cell.Sensors[1], time.AddSeconds(-6), 22.31, SensorState.Quarantined, "2.3 K away from its three neighbours since 09:40"),
            new SensorSnapshot(Cell.Sensors[2], time.AddSeconds(-3), 23.4, SensorState.Fresh, null),
            new SensorSnapshot(Cell.Sensors[3], time.AddMinutes(-14), 21.1, SensorState.Invalid, "last reading 14 min ago, allowed 3 min"),
            new SensorSnapshot(Cell.Sensors[4], time.AddSeconds(-35), 15.3, SensorState.Late, "last reading 35 s ago, expected every 10 s"),
            new SensorSnapshot(Cell.Sensors[5], null, double.NaN, SensorState.Silent, "nothing came since the start"),
            new SensorSnapshot(Cell.Sensors[6], time.AddMinutes(-3), 0, SensorState.Fresh, null),
        ],
        Counts = new LoopCounts(418_233, 61, 2, 214, 0, 3.3),
    };

    /// <summary>An outlook of a feature, for the ruler.</summary>
    public static FeatureOutlook Feature(string id, double drift, double mismatch, double u, double budget, double probability, params double[] trail)
    {
        var worst = trail.Length == 0 ? drift + mismatch : trail.MaxBy(Math.Abs);
        return new FeatureOutlook
        {
            Feature = id,
            DriftMicrometres = drift,
            MismatchMicrometres = mismatch,
            EffectMicrometres = drift + mismatch,
            UMicrometres = u,
            BudgetMicrometres = budget,
            ToleranceMicrometres = budget / 0.3,
            Probability = probability,
            WorstMicrometres = worst,
            WorstAfter = TimeSpan.FromMinutes(trail.Length == 0 ? 0 : 5 * Array.IndexOf(trail, worst)),
            Level = probability >= 0.3 ? Level.Hold : probability >= 0.1 ? Level.MeasureFirst : probability >= 0.02 ? Level.Watch : Level.Ready,
            TrailMicrometres = trail,
        };
    }

    private static MachineSnapshot Snapshot(Machine machine, DateTimeOffset time, double wobble)
    {
        var outlook = Outlook(machine.Id, time, wobble);
        return new MachineSnapshot
        {
            Machine = machine,
            Outlook = outlook,
            Job = outlook.Part.Length == 0 ? null : new JobLoaded(time, machine.Id) { Serial = outlook.Serial, Part = outlook.Part, Pallet = "P2" },
            AirCelsius = 20.05,
            CoolantCelsius = machine.CoolantSensor is null ? null : 23.4,
            CoolantOn = machine.Id == "M3",
            Trace = machine.Id == "M7" ? [] : Trace(outlook, machine, time),
        };
    }

    private static Outlook Outlook(string machine, DateTimeOffset time, double wobble)
    {
        var basis = new Outlook
        {
            Machine = machine, Level = Level.NoJob, Reason = "", Action = "", Seq = 1041, IssuedAt = time, ValidUntil = time.AddMinutes(10),
            CutDuration = TimeSpan.FromMinutes(25),
        };
        return machine switch
        {
            "M3" => With(basis, Level.Hold, "FD-1100", "0117", "Flush 25 min once the chiller is back",
                "The coolant is at 23.4 °C and the part follows it in 7 min. The air is fine.",
                Feature("pattern", 3, 26 + wobble, 2.1, 18, 0.9, 29 + wobble, 31, 33, 34.5, 35.6, 36.4),
                Feature("pilot", 0, 9.4, 0.8, 6, 0.97, 9.4, 9.9, 10.6, 11.2)) with
            {
                Start = new SafeAt(TimeSpan.FromMinutes(55), TimeSpan.FromMinutes(40), TimeSpan.FromMinutes(50), TimeSpan.FromMinutes(70)),
                Actions = ["Flush 25 min once the chiller is back", "Finish on M4 in 40 min", "Cut the op 40 chamfers first, 25 min"],
            },
            "M4" => With(basis, Level.MeasureFirst, "VR-780", "0042", "Probe datum A again, 2 min",
                "The structure has moved since the datum was probed 6 h ago; the part itself is fine.",
                Feature("groove-depth", -7.5 - (wobble / 4), 1.2, 1.9, 6, 0.46, -6.3, -6.8, -7.2, -7.4) with { Level = Level.MeasureFirst },
                Feature("groove", 0, -3.1, 0.9, 7.5, 0.004, -3.1, -3.0, -2.8),
                Feature("flange-holes", 4.0, 3.0, 1.2, 24, 0.001, 7.0, 7.2, 7.3)) with { PartCelsius = 20.31 },
            "M5" => With(basis, Level.NotKnown, "LD-320", "0009", "Ask the setter before the finish cut",
                "The dielectric sensor m5/dielectric has been silent for 14 min, allowed are 3 min.") with
            {
                PartCelsius = null, ScaleCelsius = null,
            },
            "M2" => With(basis, Level.Watch, "PC-620", "0118", "Go", "The room drifts up by 0.2 K; the margin is enough for this cut.",
                Feature("bores", 2.4, 2.0, 1.0, 7.5, 0.04, 4.4 + (wobble / 4), 4.9, 5.4, 5.8)),
            "M6" => With(basis, Level.Bypassed, "PH-340", "2203", "Cut as decided; bores are measured first afterwards",
                "K. Brandt took over until 14:00: deadline.", Feature("bores", -1.0, -9.5, 0.6, 3.6, 0.99, -10.5, -10.1, -9.8)),
            "M1" => With(basis, Level.Ready, "PC-620", "0119", "Go", "Part and machine have settled.",
                Feature("bores", -0.6, 1.9, 0.7, 7.5, 0.001, 1.3 + (wobble / 8), 1.4, 1.6, 1.5)),
            _ => basis with { Reason = "Nothing is loaded.", Action = "Load a part", CutDuration = null },
        };
    }

    private static Outlook With(
        Outlook basis, Level level, string part, string serial, string action, string reason, params FeatureOutlook[] features) => basis with
    {
        Level = level,
        Part = part,
        Serial = serial,
        Operation = "40",
        Action = action,
        Actions = [action],
        Reason = reason,
        Worst = features.FirstOrDefault(),
        Features = features,
        PartCelsius = 22.9,
        PartUncertaintyKelvins = 0.15,
        ScaleCelsius = 20.1,
    };

    private static List<TracePoint> Trace(Outlook outlook, Machine machine, DateTimeOffset time)
    {
        var points = new List<TracePoint>();
        for (var ago = 180; ago >= 0; ago--)
        {
            var warm = ago < 50 ? 3.4 * (1 - Math.Exp(-(50 - ago) / 25.0)) : 0;
            var known = ago is < 100 or > 112;
            points.Add(new TracePoint(
                time.AddMinutes(-ago),
                20 + (0.3 * Math.Sin(ago / 8.0)),
                machine.CoolantSensor is null || !known ? double.NaN : 20 + warm,
                20 + (0.8 * warm) + 0.1,
                20.1 + (0.05 * Math.Sin(ago / 30.0)),
                outlook.Worst?.Feature,
                outlook.Worst is { } worst && known ? worst.EffectMicrometres * (0.25 + (0.75 * warm / 2.94)) : double.NaN,
                outlook.Worst?.BudgetMicrometres ?? double.NaN,
                outlook.Level));
        }

        return points;
    }

    private static Sensor Sensor(string id, SensorPlace place) => new() { Id = id, Quantity = SensorQuantity.Temperature, Place = place };

    private static Part Part(string number, params Feature[] features) => new()
    {
        Number = number, Material = Steel, VolumeToAreaMillimetres = 20, HalfThicknessMillimetres = 22, Features = features,
    };

    private static SizeFeature Size(string id, double nominal, double tolerance, double budget) => new()
    {
        Id = id, NominalMillimetres = nominal, ToleranceMillimetres = tolerance, Budget = BudgetRule.Absolute(budget),
    };

    private static PositionFeature Circle(string id, int count, double radius, double tolerance, double budget) => new()
    {
        Id = id,
        ToleranceMillimetres = tolerance,
        Budget = BudgetRule.Absolute(budget),
        Points = [.. Enumerable.Range(0, count).Select(i =>
            new PatternPoint(radius * Math.Cos(2 * Math.PI * i / count), radius * Math.Sin(2 * Math.PI * i / count)))],
    };
}
