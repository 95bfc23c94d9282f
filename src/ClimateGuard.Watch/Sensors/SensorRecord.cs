using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>All that trust remembers of one sensor; bounded.</summary>
internal sealed class SensorRecord
{
    private const int RememberedMoments = 16;

    private readonly long[] moments = new long[RememberedMoments];
    private int nextMoment;

    public SensorRecord(Sensor sensor)
    {
        Sensor = sensor;
        Array.Fill(moments, long.MinValue);
        IsSlowQuantity = sensor.Quantity is SensorQuantity.Temperature or SensorQuantity.RelativeHumidity && sensor.Place != SensorPlace.Command;
        Sentinels = new DeviceSentinels(sensor);
        Calibrations = new CalibrationHistory(sensor);
        Spikes = new SpikeWatch(sensor);
        Period = new PeriodWatch(sensor);
        Twin = new TwinWatch(IsSlowQuantity ? Math.Max(1.0, 8 * sensor.Uncertainty) : double.NaN);
        Steps = new StepSize(sensor);
        Minutes = IsSlowQuantity && sensor.Quantity == SensorQuantity.Temperature ? new MinuteMeans() : null;
    }

    public Sensor Sensor { get; private set; }

    /// <summary>Temperature or humidity: its values have no reason to jump.</summary>
    public bool IsSlowQuantity { get; }

    public DeviceSentinels Sentinels { get; }

    public CalibrationHistory Calibrations { get; private set; }

    public SpikeWatch Spikes { get; }

    public PeriodWatch Period { get; }

    /// <summary>The last two hours by the minute, in use value; null where nobody asks.</summary>
    public MinuteMeans? Minutes { get; }

    public StampWatch Stamps { get; } = new();

    public TwinWatch Twin { get; }

    public StuckWatch Stuck { get; } = new();

    public StepSize Steps { get; }

    public RefusalRun Refusals { get; } = new();

    /// <summary>How it stands to its neighbours; null without any.</summary>
    public NeighbourLevel? Level { get; set; }

    /// <summary>How late it follows them; null without any.</summary>
    public ResponseLag? Lag { get; set; }

    /// <summary>The sensor whose place it seems to have, or null.</summary>
    public SensorRecord? SwappedWith { get; set; }

    /// <summary>The last value believed, as decoded; of a mistaken unit, what it stood for. NaN before the first.</summary>
    public double LastBelieved { get; set; } = double.NaN;

    /// <summary>Event time of the newest reading that was plausible, in ms.</summary>
    public long NewestAt { get; set; } = long.MinValue;

    /// <summary>The unit its values look like, and the value that showed it.</summary>
    public (MistakenUnit Unit, double Value) Mistaken { get; set; }

    /// <summary>Readings that came after a newer one: history only.</summary>
    public long Late { get; set; }

    /// <summary>Readings that came twice.</summary>
    public long Duplicates { get; set; }

    /// <summary>Readings set aside for whatever reason.</summary>
    public long SetAside { get; set; }

    /// <summary>What is wrong with it, worst first.</summary>
    public List<SensorCondition> Conditions { get; } = [];

    /// <summary>Why its readings are set aside whatever they say, or <see cref="TrustReason.None"/>.</summary>
    public TrustReason SetAsideBecause => Twin.IsTwin ? TrustReason.ConflictingTwin
        : SwappedWith is not null ? TrustReason.Swapped
        : Stuck.IsStuck ? TrustReason.Stuck
        : TrustReason.None;

    /// <summary>The same record under another version of the plant file; null when the sensor is described otherwise. A new calibration is no new sensor.</summary>
    public SensorRecord? For(Sensor next)
    {
        if (Sensor with { Calibrations = next.Calibrations } != next)
        {
            return null;
        }

        (Sensor, Calibrations) = (next, new CalibrationHistory(next));
        return this;
    }

    /// <summary>Whether a reading of this moment came lately; notes the moment when it is new.</summary>
    public bool CameBefore(long stamp)
    {
        if (Array.IndexOf(moments, stamp) >= 0)
        {
            return true;
        }

        moments[nextMoment] = stamp;
        nextMoment = (nextMoment + 1) % RememberedMoments;
        return false;
    }
}
