using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Judges each reading: accept, correct, or set aside with the reason. Nothing is thrown away.</summary>
/// <remarks>
/// On each reading it asks, in this order: kept by the broker, came before, stamp, sentinel, unit, range, calibration; and of the newest of its
/// sensor: twin, swapped, stuck, spike. Once a minute of arrival <see cref="NeighbourPass"/> and <see cref="SwapWatch"/> compare the sensors with each
/// other. The judgement on a sensor does not depend on the order in which other sensors' readings of the same minute came. Owned by the loop, not
/// safe across threads; no allocation per reading.
/// </remarks>
public sealed class SensorTrust
{
    /// <summary>A stamp may be so much later than now before the reading is set aside.</summary>
    public static readonly TimeSpan FutureAllowance = StampWatch.Allowance;

    private readonly SensorRecord[] records;
    private readonly NeighbourPass neighbours;
    private readonly SwapWatch swaps;
    private readonly ConditionBook book;
    private long minute = long.MinValue;

    /// <summary>Begins to judge the sensors of a cell.</summary>
    /// <param name="cell">The cell.</param>
    public SensorTrust(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        records = [.. cell.Sensors.Select(sensor => new SensorRecord(sensor))];
        neighbours = new NeighbourPass(records);
        swaps = new SwapWatch(records);
        book = new ConditionBook(records);
    }

    private SensorTrust(Cell next, SensorTrust before)
    {
        var known = before.records.ToDictionary(record => record.Sensor.Id, StringComparer.Ordinal);
        records = [.. next.Sensors.Select(sensor => known.GetValueOrDefault(sensor.Id)?.For(sensor) ?? new SensorRecord(sensor))];
        neighbours = new NeighbourPass(records);
        swaps = new SwapWatch(records, before.swaps);
        book = new ConditionBook(records);
        book.Depart(before.records.Except(records), before.minute);
        minute = before.minute;
    }

    /// <summary>Judges the sensors of another version of the cell; what is remembered of a sensor of the same id and description goes along.</summary>
    /// <param name="next">The other version.</param>
    public SensorTrust For(Cell next)
    {
        ArgumentNullException.ThrowIfNull(next);
        return new SensorTrust(next, this);
    }

    /// <summary>Judges one reading.</summary>
    /// <param name="arrival">An arrival that is a reading of this cell.</param>
    public TrustedReading Judge(in Arrival arrival)
    {
        var arrived = arrival.ArrivedAt.ToUnixTimeMilliseconds();
        if (arrived / 60_000 > minute)
        {
            minute = arrived / 60_000;
            LookAround((int)minute);
        }

        var record = records[arrival.Reading.Sensor];
        var judged = Judge(record, arrival, arrived);
        record.SetAside += judged.Trust == Trust.Quarantined ? 1 : 0;
        return judged;
    }

    /// <summary>What is wrong with a sensor, worst first; empty when nothing is.</summary>
    /// <param name="sensor">Index of the sensor in the cell.</param>
    public IReadOnlyList<SensorCondition> ConditionsOf(int sensor) => records[sensor].Conditions;

    /// <summary>The period to reckon with: as stated, or as seen when it is twice as long or half as long.</summary>
    /// <param name="sensor">Index of the sensor in the cell.</param>
    public TimeSpan PeriodOf(int sensor) => records[sensor].Period.Period;

    /// <summary>Counts of one sensor since the start.</summary>
    /// <param name="sensor">Index of the sensor in the cell.</param>
    public SensorCounts CountsOf(int sensor) => new(records[sensor].Late, records[sensor].Duplicates, records[sensor].SetAside);

    /// <summary>What a person should be told since the last time this was asked.</summary>
    public IReadOnlyList<AlertRaised> TakeAlerts() => book.TakeAlerts();

    /// <summary>The clock of this process was set: what was learned of other clocks against it is void.</summary>
    public void AfterClockStep()
    {
        foreach (var record in records)
        {
            record.Stamps.Forget();
        }

        minute = long.MinValue;
    }

    private static TrustedReading Judge(SensorRecord record, in Arrival arrival, long arrived)
    {
        var reading = arrival.Reading;
        if (arrival.Retained)
        {
            return Refused(reading, TrustReason.Retained);
        }

        if (record.CameBefore(reading.EpochMilliseconds))
        {
            record.Duplicates++;
            return Refused(reading, TrustReason.Duplicate);
        }

        var refused = arrival.TimeIsArrival ? TrustReason.None : record.Stamps.Judge(reading.EpochMilliseconds, arrived);
        refused = refused == TrustReason.None ? Implausible(record, reading.Value) : refused;
        if (refused != TrustReason.None)
        {
            record.Refusals.Refused(refused);
            return Refused(reading, refused);
        }

        record.Refusals.Good();
        return Plausible(record, reading, arrival.TimeIsArrival ? 0 : record.Stamps.Ahead);
    }

    private static TrustReason Implausible(SensorRecord record, double value)
    {
        if (record.Sentinels.Has(value, record.LastBelieved))
        {
            return TrustReason.Sentinel;
        }

        var unit = UnitMixUp.Guess(record.Sensor, value, record.LastBelieved);
        if (unit != MistakenUnit.None)
        {
            record.Mistaken = (unit, value);
            record.LastBelieved = double.IsNaN(record.LastBelieved) ? double.NaN : UnitMixUp.InCelsius(value, unit);
            return TrustReason.UnitMixUp;
        }

        return value < record.Sensor.PlausibleLow || value > record.Sensor.PlausibleHigh ? TrustReason.OutOfRange : TrustReason.None;
    }

    private static TrustedReading Plausible(SensorRecord record, in Reading reading, long ahead)
    {
        var at = reading.EpochMilliseconds - ahead;
        var offset = record.Calibrations.OffsetAt(at);
        var refused = record.SetAsideBecause;
        if (at > record.NewestAt)
        {
            refused = Newest(record, reading, at, reading.Value - offset);
        }
        else
        {
            record.Late++;
        }

        if (refused != TrustReason.None)
        {
            return Refused(reading, refused) with { ClockAheadMilliseconds = ahead };
        }

        return (offset, ahead) switch
        {
            (0, 0) => new(reading, reading.Value, Trust.Accepted, TrustReason.None),
            (_, 0) => new(reading, reading.Value - offset, Trust.Corrected, TrustReason.Calibrated),
            _ => new(reading, reading.Value - offset, Trust.Corrected, TrustReason.ClockOffset) { ClockAheadMilliseconds = ahead },
        };
    }

    private static TrustReason Newest(SensorRecord record, in Reading reading, long at, double value)
    {
        record.NewestAt = at;
        record.Period.Take(at);
        if (!record.IsSlowQuantity)
        {
            record.Twin.Take(reading.Value, reading.Sequence);
            record.LastBelieved = reading.Value;
            return record.SetAsideBecause;
        }

        record.Twin.Take(reading.Value, reading.Sequence);
        record.Stuck.Take(reading.Value, at);
        var spike = record.Spikes.IsSpike(value, at);
        if (!spike)
        {
            record.Steps.Take(reading.Value);
            record.LastBelieved = reading.Value;
            record.Minutes?.Add((int)(at / 60_000), value);
        }

        var because = record.SetAsideBecause;
        return because != TrustReason.None ? because : spike ? TrustReason.Spike : TrustReason.None;
    }

    private static TrustedReading Refused(in Reading reading, TrustReason why) => new(reading, reading.Value, Trust.Quarantined, why);

    private void LookAround(int now)
    {
        neighbours.Run(now);
        swaps.Run(now);
        book.Update(now);
    }
}

/// <summary>Counts of one sensor since the start.</summary>
/// <param name="Late">Readings that came after a newer one: in the history, without effect on the present.</param>
/// <param name="Duplicates">Readings that came twice, or two for one moment.</param>
/// <param name="SetAside">Readings set aside, for whatever reason.</param>
public readonly record struct SensorCounts(long Late, long Duplicates, long SetAside);
