using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How one sensor stands to the middle of its neighbours: outvoted for minutes (F18, sun or a heater), or away from them for days (F13, drift).</summary>
/// <remarks>
/// State is a few numbers whatever the time. In one layer of the air the usual difference is nothing; a sensor in another layer is given half an hour
/// to show its usual difference, which then follows it by the day. Only quiet minutes count for drift. The thresholds are those of common
/// practice, no source: 1 K for ten minutes, 0.3 K over three days of quiet minutes.
/// </remarks>
internal sealed class NeighbourLevel(Sensor sensor, bool sameLayer)
{
    /// <summary>Minutes that a departure must last, or be over.</summary>
    public const int Minutes = 10;

    /// <summary>Quiet minutes before drift is judged.</summary>
    public const int DriftMinutes = 3 * 24 * 60;

    private const double OutvotedKelvins = 1.0;
    private const double AwayKelvins = 0.3;
    private const double BackKelvins = 0.6;
    private const double OthersAgreeKelvins = 0.5;
    private const double QuietSpreadKelvins = 0.35;
    private const int MinutesToLearn = 30;
    private const double DayOfMinutes = 24 * 60;
    private const double LeastDriftKelvins = 0.3;
    private const double DriftBack = 0.7;

    private readonly double drift = Math.Max(LeastDriftKelvins, 3.75 * sensor.Uncertainty);
    private double usual;
    private int learned = sameLayer ? MinutesToLearn : 0;
    private double mean;
    private int quiet;
    private double reference = sameLayer ? 0 : double.NaN;
    private int apart;
    private int together;

    /// <summary>The difference to the middle of the others now, in K; NaN when not known.</summary>
    public double Now { get; private set; } = double.NaN;

    /// <summary>What of it is not usual, in K; NaN when not known.</summary>
    public double Departure => learned < MinutesToLearn ? double.NaN : Now - usual;

    /// <summary>For how many minutes it has not stood where it usually stands.</summary>
    public int MinutesAway { get; private set; }

    /// <summary>Far from its neighbours, which agree.</summary>
    public bool IsOutvoted { get; private set; }

    /// <summary>Away from its neighbours for days.</summary>
    public bool IsDrifting { get; private set; }

    /// <summary>By how much it has drifted, in K.</summary>
    public double DriftKelvins => mean - reference;

    /// <summary>Takes the difference of one minute.</summary>
    /// <param name="difference">The sensor less the middle of the others, in K.</param>
    /// <param name="spread">How far apart the others lie, in K.</param>
    public void Take(double difference, double spread)
    {
        Now = difference;
        if (double.IsNaN(difference))
        {
            return;
        }

        MinutesAway = Math.Abs(Departure) > AwayKelvins ? Math.Min(MinutesAway + 1, DriftMinutes) : 0;
        Outvote(spread);
        if (spread <= QuietSpreadKelvins && !IsOutvoted && Math.Abs(difference - usual) < OutvotedKelvins)
        {
            Learn(difference);
        }
    }

    /// <summary>Another physical sensor: what was learned is void.</summary>
    public void Forget()
    {
        (usual, learned, quiet, mean, apart, together) = (0, sameLayer ? MinutesToLearn : 0, 0, 0, 0, 0);
        (reference, IsOutvoted, IsDrifting) = (sameLayer ? 0 : double.NaN, false, false);
    }

    private void Outvote(double spread)
    {
        var departure = Math.Abs(Departure);
        apart = departure > OutvotedKelvins && spread <= OthersAgreeKelvins ? apart + 1 : 0;
        together = departure < BackKelvins ? together + 1 : 0;
        IsOutvoted = IsOutvoted ? together < Minutes : apart >= Minutes;
    }

    private void Learn(double difference)
    {
        if (!sameLayer)
        {
            learned = Math.Min(learned + 1, MinutesToLearn);
            usual += (difference - usual) / (learned < MinutesToLearn ? learned : DayOfMinutes);
        }

        quiet = Math.Min(quiet + 1, DriftMinutes);
        mean += (difference - mean) / Math.Min(quiet, DayOfMinutes);
        if (quiet < DriftMinutes)
        {
            return;
        }

        reference = double.IsNaN(reference) ? mean : reference;
        var off = Math.Abs(mean - reference);
        IsDrifting = IsDrifting ? off > DriftBack * drift : off > drift;
    }
}
