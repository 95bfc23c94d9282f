namespace ClimateGuard.Thermal;

/// <summary>The largest range of a record within any interval of one length: how a drift test states its result.</summary>
/// <remarks>
/// The environmental temperature variation error of ISO 230-3:2020 is the largest max − min of the displacement in any window of the
/// stated length over the record (procedure from memory). A window is closed at both ends: samples exactly its length apart count
/// together. One pass, whatever the window.
/// </remarks>
public static class WindowedRange
{
    /// <summary>The largest range and where it was found.</summary>
    /// <param name="samples">Time since the start of the record and value, times not falling.</param>
    /// <param name="window">The length of the interval, 0 or more.</param>
    /// <returns>The range in the unit of the values, and the first and last moment of the samples that made it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no sample, a value is not a number, times fall, or the window is negative.</exception>
    public static WindowedRangeResult Largest(IReadOnlyList<(TimeSpan At, double Value)> samples, TimeSpan window)
    {
        ArgumentNullException.ThrowIfNull(samples);
        FormulaInput.NotNegative(window.TotalSeconds, "s", nameof(window));
        FormulaInput.InRange(samples.Count, 1, int.MaxValue, "samples", "number of samples");
        // Candidates for the extremes of the window, oldest first; a newer sample at least as extreme makes older ones pointless.
        var highs = new LinkedList<(TimeSpan At, double Value)>();
        var lows = new LinkedList<(TimeSpan At, double Value)>();
        var best = new WindowedRangeResult(-1, default, default);
        var previous = TimeSpan.MinValue;
        foreach (var sample in samples)
        {
            FormulaInput.Finite(sample.Value, "", $"value at {sample.At}");
            if (sample.At < previous)
                throw new ArgumentOutOfRangeException(nameof(samples), sample.At, $"samples must be in order of time; {sample.At} comes after {previous}.");
            previous = sample.At;
            while (highs.Last is { } high && high.Value.Value <= sample.Value) highs.RemoveLast();
            while (lows.Last is { } low && low.Value.Value >= sample.Value) lows.RemoveLast();
            highs.AddLast(sample);
            lows.AddLast(sample);
            while (sample.At - highs.First!.Value.At > window) highs.RemoveFirst();
            while (sample.At - lows.First!.Value.At > window) lows.RemoveFirst();
            var (top, bottom) = (highs.First.Value, lows.First.Value);
            if (top.Value - bottom.Value <= best.Range) continue;
            best = new(top.Value - bottom.Value, top.At < bottom.At ? top.At : bottom.At, top.At < bottom.At ? bottom.At : top.At);
        }

        return best;
    }

    /// <summary>A tilt from two displacements: (d₁ − d₂)/(distance of the sensors).</summary>
    /// <param name="firstMicrometres">d₁, in µm.</param>
    /// <param name="secondMicrometres">d₂, in µm.</param>
    /// <param name="spacingMillimetres">Distance of the two sensors, in mm, above 0.</param>
    /// <returns>The tilt, in µrad.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double TiltMicroradians(double firstMicrometres, double secondMicrometres, double spacingMillimetres) =>
        (FormulaInput.Finite(firstMicrometres, "µm") - FormulaInput.Finite(secondMicrometres, "µm"))
        / FormulaInput.Positive(spacingMillimetres, "mm") * 1000;
}

/// <summary>The largest range of a record in a window.</summary>
/// <param name="Range">max − min, in the unit of the record, 0 or more.</param>
/// <param name="From">When the first of the two extremes was.</param>
/// <param name="To">When the second was; at most the window later.</param>
public readonly record struct WindowedRangeResult(double Range, TimeSpan From, TimeSpan To);
