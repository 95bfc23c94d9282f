using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One sensor as it is: slow, a little wrong, noisy, with a last digit.</summary>
public sealed class SensorModel
{
    private const double NoiseShare = 0.3;
    private const double TurbulenceKelvin = 0.15;
    private const long TwinSequence = 1_000_000;
    private readonly Chance chance;
    private readonly double noise;
    private readonly double turbulence;
    private readonly double offset;
    private readonly bool digital;
    private readonly LagNode lag;
    private Func<double> source;
    private long due;
    private long sequence;
    private double lastValue = double.NaN;
    private bool unpowered;

    internal SensorModel(Sensor sensor, int index, Func<double> source, int seed, long startMilliseconds)
    {
        Sensor = sensor;
        Index = index;
        this.source = source;
        chance = new Chance(seed, sensor.Id);
        digital = IsDigital(sensor);
        noise = digital ? 0 : NoiseShare * sensor.Uncertainty;
        turbulence = sensor is { Place: SensorPlace.Air, Quantity: SensorQuantity.Temperature } ? TurbulenceKelvin : 0;
        offset = (digital ? 0 : sensor.Uncertainty * Math.Clamp(chance.Normal(), -2, 2) * 0.8)
            + CalibratedOffset(sensor, startMilliseconds);
        PeriodMilliseconds = Math.Max(100, (long)sensor.Period.TotalMilliseconds);
        due = startMilliseconds + 1 + (long)(chance.Uniform() * (PeriodMilliseconds - 1));
        var slow = sensor.Quantity is SensorQuantity.Temperature or SensorQuantity.RelativeHumidity;
        lag = new LagNode(slow && !digital ? sensor.TimeConstant : TimeSpan.Zero, source());
    }

    /// <summary>The description.</summary>
    public Sensor Sensor { get; }

    /// <summary>Its index in the cell.</summary>
    public int Index { get; }

    /// <summary>What shines on it, in K.</summary>
    internal double RadiantKelvin { get; set; }

    /// <summary>What it is off by beyond its normal error.</summary>
    internal double FaultOffset { get; set; }

    /// <summary>It says the same number for ever.</summary>
    internal bool Frozen { get; set; }

    /// <summary>It says nothing.</summary>
    internal bool Silent { get; set; }

    /// <summary>How often it reports.</summary>
    internal long PeriodMilliseconds { get; set; }

    /// <summary>By how much it moves away from the truth each day.</summary>
    internal double DriftPerDay { get; set; }

    /// <summary>What disturbs single readings: how far, and how many of them.</summary>
    internal (double Size, double Share) Spikes { get; set; }

    /// <summary>By how much the clock of its gateway is ahead.</summary>
    internal long ClockAheadMilliseconds { get; set; }

    /// <summary>What it makes of its value before it sends it, or null.</summary>
    internal Func<double, double>? Garbles { get; set; }

    /// <summary>A second device sends under its id, off by so much; null for none.</summary>
    internal double? TwinOffset { get; set; }

    /// <summary>Its own time constant against that of a well placed one.</summary>
    internal double LagFactor { get; set; } = 1.0;

    /// <summary>The step in which its values come instead of its own, or null.</summary>
    internal double? CoarseStep { get; set; }

    /// <summary>A gateway without power says nothing, and counts anew when it comes back.</summary>
    internal void Powered(bool on, bool restarted)
    {
        unpowered = !on;
        if (restarted) sequence = 0;
    }

    internal void SwapPlaceWith(SensorModel other) => (source, other.source) = (other.source, source);

    /// <summary>Follows the truth for a step, with the eddies of the air that pass it.</summary>
    internal void Follow(double seconds)
    {
        lag.Advance(source() + RadiantKelvin + (turbulence > 0 ? turbulence * chance.Normal() : 0), seconds / LagFactor);
        FaultOffset += DriftPerDay * seconds / 86_400;
    }

    /// <summary>Says what is due up to a time.</summary>
    internal void Speak(long untilMilliseconds, SignalBuffer buffer)
    {
        while (due <= untilMilliseconds)
        {
            var value = Frozen && !double.IsNaN(lastValue) ? lastValue : Read();
            if (!Silent && !unpowered && !(Sensor.ReportsOnChange && value == lastValue))
                Say(value, buffer);
            lastValue = value;
            due += PeriodMilliseconds;
        }
    }

    private void Say(double value, SignalBuffer buffer)
    {
        var disturbed = Spikes.Share > 0 && chance.Uniform() < Spikes.Share ? value + (Spikes.Size * (0.5 + chance.Uniform())) : value;
        var sent = Garbles is { } garbles ? garbles(disturbed) : disturbed;
        buffer.Add(CellSignal.Of(new Reading(Index, due + ClockAheadMilliseconds, sent, sequence++)));
        if (TwinOffset is { } off)
            buffer.Add(CellSignal.Of(new Reading(Index, due + ClockAheadMilliseconds + (PeriodMilliseconds / 2), value + off, TwinSequence + sequence)));
    }

    private double Read()
    {
        if (Sensor.Quantity == SensorQuantity.Contact) return source();
        var step = CoarseStep ?? ResolutionOf(Sensor.Quantity);
        var raw = lag.Value + offset + FaultOffset + (noise * chance.Normal());
        var read = Math.Round(raw / step) * step;
        return Sensor.Quantity switch
        {
            SensorQuantity.Temperature => read,
            SensorQuantity.Fraction => Math.Clamp(read, 0, 1),
            SensorQuantity.RelativeHumidity => Math.Clamp(read, 0, 100),
            _ => Math.Max(0, read),
        };
    }

    // A command, a set point and a status come out of a controller: they have no error, only a last digit.
    private static bool IsDigital(Sensor sensor) => sensor.Quantity == SensorQuantity.Contact
        || sensor is { Place: SensorPlace.Command, Quantity: SensorQuantity.Fraction or SensorQuantity.Temperature };

    private static double ResolutionOf(SensorQuantity quantity) => quantity switch
    {
        SensorQuantity.Temperature => 0.01,
        SensorQuantity.RelativeHumidity => 0.1,
        SensorQuantity.Fraction => 0.001,
        SensorQuantity.Power => 0.01,
        SensorQuantity.Flow => 10,
        _ => 1,
    };

    // What a calibration found wrong is still wrong in the sensor: the reader of the readings has to subtract it.
    private static double CalibratedOffset(Sensor sensor, long startMilliseconds)
    {
        var found = 0.0;
        foreach (var calibration in sensor.Calibrations)
        {
            if (calibration.From.ToUnixTimeMilliseconds() <= startMilliseconds) found = calibration.Offset;
        }

        return found;
    }
}
