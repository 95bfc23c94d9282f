namespace ClimateGuard.Evidence;

/// <summary>What a control that must not react did.</summary>
public enum ControlFinding
{
    /// <summary>No slope, and a slope of the size under test is excluded.</summary>
    Clean,

    /// <summary>It reacts: a confounder is at work.</summary>
    Reacts,

    /// <summary>It shows no slope, but one of the size under test is not excluded either.</summary>
    TooFewToTell,
}

/// <summary>A feature that must not react, or the exposure of tomorrow, tested for a slope it must not have.</summary>
/// <param name="Slope">Of the control's outcome on the exposure.</param>
/// <param name="Interval">At the confidence asked.</param>
/// <param name="Finding">What it says.</param>
public sealed record NegativeControl(Estimate Slope, Interval Interval, ControlFinding Finding)
{
    /// <summary>Judges a control.</summary>
    /// <param name="slope">Of its outcome on the exposure, by episode where parts share one.</param>
    /// <param name="slopeUnderTest">The slope that the feature under test shows or is predicted to show, in the same unit, not 0.</param>
    /// <param name="confidence">Of the interval, in (0, 1).</param>
    /// <returns>The control with its finding.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static NegativeControl Of(Estimate slope, double slopeUnderTest = 1, double confidence = 0.95)
    {
        if (EvidenceInput.Finite(slopeUnderTest) == 0)
            throw new ArgumentOutOfRangeException(nameof(slopeUnderTest), slopeUnderTest, "slopeUnderTest must not be 0; a control is held against an effect.");
        var interval = slope.Interval(confidence);
        var finding = !interval.Contains(0) ? ControlFinding.Reacts
            : interval.Contains(slopeUnderTest) ? ControlFinding.TooFewToTell
            : ControlFinding.Clean;
        return new NegativeControl(slope, interval, finding);
    }

    /// <summary>The exposures of the next episodes beside the outcomes of these: no cause can reach back.</summary>
    /// <param name="episodes">Three or more in the order of time.</param>
    /// <param name="ahead">How many episodes ahead, one or more, leaving two episodes at least.</param>
    /// <returns>The episodes with the exposure of the future, for the same test as the true ones; the last ones fall away.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Too few episodes are left.</exception>
    public static IReadOnlyList<Episode> WithFutureExposure(IReadOnlyList<Episode> episodes, int ahead = 1)
    {
        ArgumentNullException.ThrowIfNull(episodes);
        EvidenceInput.Count(ahead, 1, episodes.Count - 2);
        return [.. episodes.Take(episodes.Count - ahead).Select((episode, i) => episode with { Exposure = episodes[i + ahead].Exposure })];
    }
}
