using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What a plain limit on the air of the zones would have done over the same history.</summary>
/// <param name="LimitKelvins">Alarm beyond this distance from the zone's set point, in K.</param>
/// <param name="Activations">How often the alarm came up.</param>
/// <param name="MinutesInAlarm">Minutes in alarm, added up over the zones.</param>
/// <param name="MinutesKnown">Minutes in which the air was known, added up over the zones.</param>
/// <param name="ConfirmedInAlarm">Confirmed exceedances during which the zone of the machine was in alarm.</param>
/// <param name="RefutedInAlarm">Refuted holds during which it was.</param>
public sealed record AirLimitScore(
    double LimitKelvins, int Activations, int MinutesInAlarm, int MinutesKnown, int ConfirmedInAlarm, int RefutedInAlarm);

/// <summary>Plays the voted air of each zone, minute by minute, against plain limits.</summary>
/// <remarks>Owned by one caller, not safe across threads.</remarks>
public sealed class AirLimitComparison
{
    private readonly Cell cell;
    private readonly CellState state;
    private readonly (string Zone, Machine Machine, double Setpoint)[] zones;
    private readonly Limit[] limits;
    private DateTimeOffset next;

    /// <summary>Begins at a moment.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="start">The first minute.</param>
    /// <param name="limitsKelvins">The limits, in K, positive.</param>
    public AirLimitComparison(Cell cell, DateTimeOffset start, params IReadOnlyList<double> limitsKelvins)
    {
        ArgumentNullException.ThrowIfNull(cell);
        this.cell = cell;
        state = new CellState(cell);
        zones =
        [
            .. cell.Machines.GroupBy(machine => machine.Zone).Select(group => (
                group.Key, group.First(), cell.Zones.First(zone => zone.Id == group.Key).Setpoint.Value)),
        ];
        limits = [.. limitsKelvins.Select(limit => new Limit(limit, zones.Length))];
        next = start;
    }

    /// <summary>The sensors whose readings it needs.</summary>
    /// <param name="cell">The cell.</param>
    public static IReadOnlyList<Sensor> SensorsOf(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return [.. cell.Sensors.Where(sensor => sensor is { Place: SensorPlace.Air, Quantity: SensorQuantity.Temperature })];
    }

    /// <summary>Takes the next accepted reading, in order of time.</summary>
    /// <param name="reading">The reading.</param>
    public void Take(in TrustedReading reading)
    {
        Until(reading.Time);
        state.Take(reading);
    }

    /// <summary>Judges the minutes up to a moment.</summary>
    /// <param name="moment">The moment.</param>
    public void Until(DateTimeOffset moment)
    {
        for (; next < moment; next = next.AddMinutes(1))
        {
            for (var zone = 0; zone < zones.Length; zone++)
            {
                var air = state.ClimateOf(zones[zone].Machine.Id, next).AirCelsius;
                foreach (var limit in limits)
                {
                    limit.Take(zone, next, air - zones[zone].Setpoint);
                }
            }
        }
    }

    /// <summary>The scores of the limits, in their order, beside the decided holds.</summary>
    /// <param name="holds">The holds.</param>
    public IReadOnlyList<AirLimitScore> Scores(IEnumerable<HeldWork> holds)
    {
        HeldWork[] decided = [.. holds.Where(hold => hold.Decided)];
        return
        [
            .. limits.Select(limit => new AirLimitScore(
                limit.Kelvins, limit.Activations, limit.Minutes, limit.Known,
                decided.Count(hold => hold.Score!.Verdict == HoldVerdict.Confirmed && InAlarm(limit, hold)),
                decided.Count(hold => hold.Score!.Verdict == HoldVerdict.Refuted && InAlarm(limit, hold)))),
        ];
    }

    private bool InAlarm(Limit limit, HeldWork hold)
    {
        var zone = cell.FindMachine(hold.Work.Machine)?.Zone;
        var index = Array.FindIndex(zones, known => known.Zone == zone);
        return index >= 0 && limit.AnyAlarm(index, hold.Begin, hold.ScoredAt ?? hold.Begin);
    }

    /// <summary>One limit with the spans in which it was in alarm.</summary>
    private sealed class Limit(double kelvins, int zones)
    {
        private readonly List<(DateTimeOffset Begin, DateTimeOffset Last)>[] alarms = [.. Enumerable.Range(0, zones).Select(_ => new List<(DateTimeOffset, DateTimeOffset)>())];
        private readonly bool[] inAlarm = new bool[zones];

        public double Kelvins { get; } = kelvins;

        public int Activations => alarms.Sum(zone => zone.Count);

        public int Minutes { get; private set; }

        public int Known { get; private set; }

        public void Take(int zone, DateTimeOffset minute, double offset)
        {
            if (double.IsNaN(offset))
            {
                inAlarm[zone] = false;
                return;
            }

            Known++;
            var beyond = Math.Abs(offset) > Kelvins;
            if (beyond)
            {
                Minutes++;
                var begin = inAlarm[zone] ? alarms[zone][^1].Begin : minute;
                if (inAlarm[zone])
                {
                    alarms[zone].RemoveAt(alarms[zone].Count - 1);
                }

                alarms[zone].Add((begin, minute));
            }

            inAlarm[zone] = beyond;
        }

        public bool AnyAlarm(int zone, DateTimeOffset from, DateTimeOffset to) =>
            alarms[zone].Any(alarm => alarm.Begin <= to && alarm.Last.AddMinutes(1) >= from);
    }
}
