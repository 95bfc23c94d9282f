using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>A sensor with its minutes.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="Row">Its values by minute, NaN in gaps.</param>
public sealed record SensorRow(Sensor Sensor, double[] Row);

/// <summary>The signals of a zone: its air sensors, its surroundings, its machines and doors. Immutable.</summary>
public sealed class ZoneSignals
{
    private const double HighMetres = 3.0;

    /// <summary>The signals of a zone in a frame.</summary>
    public ZoneSignals(Cell cell, Zone zone, SignalFrame frame)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(frame);
        Zone = zone;
        Frame = frame;
        Air = Rows(cell, frame, s => s is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air, Machine: null } && s.Zone == zone.Id);
        var low = Air.Where(a => (a.Sensor.HeightMetres ?? 1.5) < HighMetres).ToList();
        Mean = RowMath.MedianOf(low.Count > 0 ? low : Air, frame.Minutes);
        Hall = First(cell, frame, SensorPlace.Hall, zone.Id);
        Outdoor = First(cell, frame, SensorPlace.Outdoor, null);
        Doors = Rows(cell, frame, s => s.Quantity is SensorQuantity.Contact && s.Place is SensorPlace.Door && (s.Zone is null || s.Zone == zone.Id));
        Humidity = Rows(cell, frame, s => s.Quantity is SensorQuantity.RelativeHumidity && (s.Zone is null || s.Zone == zone.Id)) is [var humidity, ..] ? humidity : null;
        var machines = cell.Machines.Where(m => m.Zone == zone.Id).Select(m => m.Id).ToHashSet(StringComparer.Ordinal);
        Powers = Rows(cell, frame, s => s.Quantity is SensorQuantity.Power && s.Machine is { } id && machines.Contains(id));
        Liquids = Rows(cell, frame, s => s is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Coolant or SensorPlace.Dielectric }
            && s.Machine is { } id && machines.Contains(id) && cell.FindMachine(id)?.CoolantSensor is var own && (own is null || own == s.Id));
        Surfaces = Rows(cell, frame, s => s is { Quantity: SensorQuantity.Temperature, Machine: { } id } && machines.Contains(id)
            && s.Place is SensorPlace.Coolant or SensorPlace.Dielectric or SensorPlace.Structure or SensorPlace.Scale or SensorPlace.Part);
        Handlers = [.. cell.Description.AirHandlers.Where(h => zone.AirHandlers.Contains(h.Id)).Select(h => new HandlerSignals(cell, h, frame))];
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>The frame.</summary>
    public SignalFrame Frame { get; }

    /// <summary>The air sensors.</summary>
    public IReadOnlyList<SensorRow> Air { get; }

    /// <summary>The median of the air sensors at working height, °C; null when the zone has none.</summary>
    public double[]? Mean { get; }

    /// <summary>The hall at this zone, °C.</summary>
    public double[]? Hall { get; }

    /// <summary>Outdoors, °C.</summary>
    public double[]? Outdoor { get; }

    /// <summary>Doors of the zone; 1 is open.</summary>
    public IReadOnlyList<SensorRow> Doors { get; }

    /// <summary>Relative humidity in %, or null.</summary>
    public SensorRow? Humidity { get; }

    /// <summary>Power of the machines in the zone, kW.</summary>
    public IReadOnlyList<SensorRow> Powers { get; }

    /// <summary>Coolant and dielectric in the tanks of the machines, °C.</summary>
    public IReadOnlyList<SensorRow> Liquids { get; }

    /// <summary>Surfaces on which water could condense, °C.</summary>
    public IReadOnlyList<SensorRow> Surfaces { get; }

    /// <summary>The air handlers of the zone.</summary>
    public IReadOnlyList<HandlerSignals> Handlers { get; }

    /// <summary>The first of them, which leads the zone, or null.</summary>
    public HandlerSignals? Lead => Handlers.Count > 0 ? Handlers[0] : null;

    /// <summary>Air minus set point, in K, by minute; the set point is a signal where there is one, else that of the plant file.</summary>
    public double[]? Error
    {
        get
        {
            if (Mean is null) return null;
            return [.. Mean.Select(value => value - Zone.Setpoint.Value)];
        }
    }

    private static IReadOnlyList<SensorRow> Rows(Cell cell, SignalFrame frame, Func<Sensor, bool> wanted) =>
    [
        .. cell.Sensors.Select((sensor, index) => (sensor, row: frame.Row(index)))
            .Where(pair => pair.row is not null && wanted(pair.sensor)).Select(pair => new SensorRow(pair.sensor, pair.row!)),
    ];

    private static double[]? First(Cell cell, SignalFrame frame, SensorPlace place, string? zone)
    {
        var rows = Rows(cell, frame, s => s.Quantity is SensorQuantity.Temperature && s.Place == place);
        return (rows.FirstOrDefault(r => r.Sensor.Zone == zone) ?? (rows.Count > 0 ? rows[0] : null))?.Row;
    }
}
