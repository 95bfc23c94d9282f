namespace ClimateGuard.Thermal;

/// <summary>When a held finish cut may start. A closed set of cases.</summary>
public abstract record EarliestStart
{
    private protected EarliestStart()
    {
    }
}

/// <summary>It may start at once.</summary>
public sealed record SafeNow : EarliestStart;

/// <summary>It may start later, from now on counted.</summary>
/// <remarks>
/// <see cref="Release"/> is what can be promised without measuring again. The other three say when it will truly be safe, if only one knew:
/// each drawn truth has its own earliest time; a measurement in between may find that it is already there.
/// </remarks>
/// <param name="Release">When probability and guard band both allow the start, to the minute.</param>
/// <param name="Low">Time by which 10 in 100 truths are safe, or null when that lies beyond the horizon.</param>
/// <param name="Median">Time by which half the truths are safe, or null when that lies beyond the horizon.</param>
/// <param name="High">Time by which 90 in 100 truths are safe, or null when that lies beyond the horizon.</param>
public sealed record SafeAt(TimeSpan Release, TimeSpan? Low, TimeSpan? Median, TimeSpan? High) : EarliestStart;

/// <summary>It may not start within the forecast.</summary>
/// <param name="Horizon">How far was looked.</param>
/// <param name="SafeShare">The share of truths that are safe at some time within it; not enough to release.</param>
public sealed record NotWithinForecast(TimeSpan Horizon, double SafeShare) : EarliestStart;
