using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Simulator;

/// <summary>A small cell in the shape of the demo's, made by code: two zones, three machines, three parts.</summary>
internal static class DemoCell
{
    public static Material Steel { get; } = new()
    {
        Id = "steel", AlphaMicrometresPerMetreKelvin = 11.6, ConductivityWattsPerMetreKelvin = 45,
        DensityKilogramsPerCubicMetre = 7850, SpecificHeatJoulesPerKilogramKelvin = 475,
    };

    public static Material Iron { get; } = new()
    {
        Id = "iron", AlphaMicrometresPerMetreKelvin = 11.5, ConductivityWattsPerMetreKelvin = 38,
        DensityKilogramsPerCubicMetre = 7100, SpecificHeatJoulesPerKilogramKelvin = 507,
    };

    public static Part Disc { get; } = new()
    {
        Number = "FD-1100", Material = Steel, MassKilograms = 671, VolumeToAreaMillimetres = 55, HalfThicknessMillimetres = 55,
        Shape = PartShape.Disc, Machines = ["M3"], HeatTransfer = new HeatTransfer { Flood = 600 },
        Features =
        [
            new PositionFeature
            {
                Id = "holes", ToleranceMillimetres = 0.060, Budget = BudgetRule.Absolute(18), Points = Circle(450, 24),
            },
        ],
    };

    public static Part Carrier { get; } = new()
    {
        Number = "PC-620", Material = Iron, MassKilograms = 148, VolumeToAreaMillimetres = 22, HalfThicknessMillimetres = 25,
        Machines = ["M2"],
        Features =
        [
            new PositionFeature
            {
                Id = "bores", ToleranceMillimetres = 0.025, Budget = BudgetRule.Absolute(7.5), Points = Circle(190, 5), Datum = DatumKind.Bore,
            },
        ],
    };

    public static Part Die { get; } = new()
    {
        Number = "LD-320", Material = Steel, VolumeToAreaMillimetres = 15.6, HalfThicknessMillimetres = 20, Machines = ["M5"],
        Features = [new SizeFeature { Id = "opening", ToleranceMillimetres = 0.004, Budget = BudgetRule.Absolute(1.2), NominalMillimetres = 40 }],
    };

    public static Cell Make(CoolingMedium medium = CoolingMedium.ChilledWater, bool outdoorAir = false) => new(new CellDescription
    {
        Id = "cell4", Name = "Cell 4", TimeZone = "Europe/Vienna",
        Zones = [new Zone { Id = "north", AirHandlers = ["ahu1"] }, new Zone { Id = "south", AirHandlers = ["ahu2"] }],
        AirHandlers = [Unit("ahu1") with { Medium = medium, OutdoorAir = outdoorAir }, Unit("ahu2")],
        Machines = [M2(), M3(), M5()],
        Parts = [Carrier, Disc, Die],
        Sensors = [.. Sensors()],
    });

    public static IReadOnlyList<PatternPoint> Circle(double radius, int count) =>
        [.. Enumerable.Range(0, count).Select(i => new PatternPoint(radius * Math.Cos(2 * Math.PI * i / count), radius * Math.Sin(2 * Math.PI * i / count)))];

    private static AirHandler Unit(string id) => new()
    {
        Id = id,
        Points = new Dictionary<string, string>
        {
            ["supply"] = id + "/sup", ["return"] = id + "/ret", ["coolingCommand"] = id + "/cool", ["heatingCommand"] = id + "/heat",
        },
    };

    private static Machine M2() => new()
    {
        Id = "M2", Zone = "north", EnvelopeMillimetres = [1050, 900, 1000], CoolantSensor = "m2/coolant", StorageSensor = "store/pallet",
        Drift = [new DriftMode(Axis.Z, -2, TimeSpan.FromHours(0.8)), new DriftMode(Axis.Z, 7, TimeSpan.FromHours(6))],
        Spindle = [new SpindleMode(Axis.Z, 18, TimeSpan.FromMinutes(25))],
    };

    private static Machine M3() => new()
    {
        Id = "M3", Zone = "south", EnvelopeMillimetres = [1400, 1400, 1000], CoolantSensor = "m3/coolant",
        Drift = [new DriftMode(Axis.X, 4, TimeSpan.FromHours(8))],
    };

    private static Machine M5() => new()
    {
        Id = "M5", Zone = "north", EnvelopeMillimetres = [600, 400, 300], CoolantSensor = "m5/dielectric", CoolantMedium = CoolantMedium.Submerged,
    };

    private static IEnumerable<Sensor> Sensors()
    {
        foreach (var zone in new[] { "north", "south" })
        {
            for (var i = 1; i <= 4; i++) yield return Air($"air/{zone[0]}{i}", zone, i == 4 ? 4.5 : 1.5);
        }

        foreach (var unit in new[] { "ahu1", "ahu2" })
        {
            yield return new Sensor { Id = unit + "/sup", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Supply, AirHandler = unit };
            yield return new Sensor { Id = unit + "/ret", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Return, AirHandler = unit };
            yield return new Sensor { Id = unit + "/cool", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, AirHandler = unit, Uncertainty = 0.002 };
            yield return new Sensor { Id = unit + "/heat", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, AirHandler = unit, Uncertainty = 0.002 };
        }

        yield return new Sensor { Id = "ahu1/filterdp", Quantity = SensorQuantity.Pressure, Place = SensorPlace.Supply, AirHandler = "ahu1", Uncertainty = 3 };
        yield return new Sensor { Id = "chw/sup", Quantity = SensorQuantity.Temperature, Place = SensorPlace.ChilledWater };
        yield return new Sensor { Id = "hall/wallN", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Hall };
        yield return new Sensor { Id = "outdoor/t", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Outdoor };
        yield return new Sensor { Id = "rh/cell", Quantity = SensorQuantity.RelativeHumidity, Place = SensorPlace.Air, Uncertainty = 2 };
        yield return new Sensor { Id = "store/pallet", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Storage };
        yield return new Sensor { Id = "cmm/air", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air };
        yield return new Sensor { Id = "m2/coolant", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Coolant, Machine = "M2" };
        yield return new Sensor { Id = "m3/coolant", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Coolant, Machine = "M3" };
        yield return new Sensor { Id = "m3/tankreturn", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Coolant, Machine = "M3" };
        yield return new Sensor { Id = "m5/dielectric", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Dielectric, Machine = "M5" };
        yield return new Sensor { Id = "m2/part", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Part, Machine = "M2" };
        yield return new Sensor { Id = "m2/power", Quantity = SensorQuantity.Power, Place = SensorPlace.Structure, Machine = "M2", Uncertainty = 0.05 };
        yield return new Sensor { Id = "m2/column", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Structure, Machine = "M2" };
        yield return new Sensor { Id = "m3/scale", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Scale, Machine = "M3" };
        yield return new Sensor
        {
            Id = "door/roller", Quantity = SensorQuantity.Contact, Place = SensorPlace.Door, Zone = "south", ReportsOnChange = true, Period = TimeSpan.FromSeconds(1),
        };
    }

    private static Sensor Air(string id, string zone, double height) => new()
    {
        Id = id, Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air, Zone = zone, HeightMetres = height, Uncertainty = 0.05,
    };
}
