using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Sensors that stand for the air of one zone, so that each can be compared with the others.</summary>
internal sealed class NeighbourGroup
{
    /// <summary>With fewer than three nobody can say which one is wrong.</summary>
    public const int Least = 3;

    // Higher or lower than the others by more than this, a sensor is in another layer of the air and has a usual difference of its own.
    private const double SameLayerMetres = 1.0;

    private readonly double[] sorted;

    private NeighbourGroup(SensorRecord[] members)
    {
        Members = members;
        sorted = new double[members.Length];
        Values = new double[members.Length];
        var heights = members.Select(m => m.Sensor.HeightMetres).OfType<double>().Order().ToArray();
        var middle = heights.Length == 0 ? double.NaN : heights[heights.Length / 2];
        foreach (var member in members)
        {
            member.Level ??= new NeighbourLevel(member.Sensor, sameLayer: !(Math.Abs((member.Sensor.HeightMetres ?? middle) - middle) > SameLayerMetres));
            member.Lag ??= new ResponseLag();
        }
    }

    public SensorRecord[] Members { get; }

    /// <summary>The middle of those that may be compared, by the minute.</summary>
    public MinuteMeans Middle { get; } = new();

    /// <summary>The value of each member at the minute looked at; NaN where it has none.</summary>
    public double[] Values { get; }

    /// <summary>The groups of a cell: air temperatures of one zone that belong to no machine, three or more.</summary>
    public static NeighbourGroup[] Of(IEnumerable<SensorRecord> records) =>
    [
        .. records
            .Where(r => r.Sensor is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air, Zone: not null, Machine: null })
            .GroupBy(r => r.Sensor.Zone, StringComparer.Ordinal)
            .Where(zone => zone.Count() >= Least)
            .Select(zone => new NeighbourGroup([.. zone])),
    ];

    /// <summary>Takes the values of a minute; a slow reporter counts with its last one.</summary>
    /// <returns>How many can be compared.</returns>
    public int Take(int minute)
    {
        var count = 0;
        for (var i = 0; i < Members.Length; i++)
        {
            var member = Members[i];
            var back = Math.Clamp((int)(1.5 * member.Period.Period.TotalMinutes), 1, 30);
            Values[i] = member.Minutes!.AtOrBefore(minute, back);
            if (!double.IsNaN(Values[i]) && member.SetAsideBecause is TrustReason.None)
            {
                sorted[count++] = Values[i];
            }
        }

        sorted.AsSpan(0, count).Sort();
        if (count >= Least)
        {
            Middle.Add(minute, (sorted[(count - 1) / 2] + sorted[count / 2]) / 2);
        }

        return count;
    }

    /// <summary>The middle of the others, and how far apart the middle half of them lies.</summary>
    /// <param name="member">Whom to leave out.</param>
    /// <param name="count">What <see cref="Take"/> returned.</param>
    public (double Middle, double Spread) Others(int member, int count)
    {
        var own = Members[member].SetAsideBecause is TrustReason.None && !double.IsNaN(Values[member])
            ? sorted.AsSpan(0, count).BinarySearch(Values[member])
            : count;
        var others = own < count ? count - 1 : count;
        if (others < Least - 1)
        {
            return (double.NaN, double.NaN);
        }

        double At(int i) => sorted[i < own ? i : i + 1];
        var middle = (At((others - 1) / 2) + At(others / 2)) / 2;
        var (low, high) = others <= Least ? (0, others - 1) : (others / 4, others - 1 - (others / 4));
        return (middle, At(high) - At(low));
    }
}
