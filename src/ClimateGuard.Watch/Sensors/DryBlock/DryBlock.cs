using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Watch;

/// <summary>Calibrates temperature probes that sit together in one dry block, or taped together on one thick piece of aluminium.</summary>
/// <remarks>
/// The settled window is the longest one that ends with the readings, has <see cref="LeastMinutes"/> minutes or more, and over which the middle of the
/// probes moves by no more than <see cref="SettledKelvins"/>. The standard uncertainty of an offset joins the type A part of the minutes (their number
/// lessened for autocorrelation), the drift over the window as a rectangle, the last digit as a rectangle, and the reference (JCGM 100, 4.2 and 4.3).
/// The window's limits are common practice, no source. Deterministic.
/// </remarks>
public static class DryBlock
{
    /// <summary>The shortest settled window, in minutes.</summary>
    public const int LeastMinutes = 20;

    /// <summary>The block may move by so much over the window, in K.</summary>
    public const double SettledKelvins = 0.05;

    private const double NotInTheBlockKelvins = 3.0;
    private const double LeastShareOfMinutes = 0.5;

    /// <summary>Judges the probes.</summary>
    /// <param name="readings">Their readings.</param>
    /// <param name="reference">What the block is known by.</param>
    /// <returns>The result, or why there is none, in one sentence.</returns>
    public static (BlockResult? Result, string? Refused) Judge(BlockReadings readings, BlockReference reference)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(reference);
        var probes = readings.Probes.ToDictionary(probe => probe, readings.MinutesOf);
        if (probes.Count < (reference.Celsius is null ? 2 : 1))
        {
            return (null, $"{probes.Count} temperature sensors have readings in this window; two or more are needed, or one with --block-celsius.");
        }

        if (reference.Sensor >= 0 && !probes.ContainsKey(reference.Sensor))
        {
            return (null, $"the reference {readings.Cell.Sensors[reference.Sensor].Id} has no readings in this window.");
        }

        var middle = Middle(probes, reference);
        if (middle.Count < LeastMinutes)
        {
            return (null, $"this window holds readings of {middle.Count} minutes; {LeastMinutes} settled ones or more are needed.");
        }

        if (Settled(middle, out var moved) is not { } window)
        {
            return (null, string.Create(CultureInfo.InvariantCulture,
                $"the block is not settled: over the last {LeastMinutes} minutes it moved by {moved:0.###} K, and at most {SettledKelvins} K over {LeastMinutes} minutes or more is allowed. Leave the probes in it longer."));
        }

        return (Result(readings, probes, middle, reference, window), null);
    }

    /// <summary>Adds the gain error from a second block at another temperature.</summary>
    /// <param name="first">The first block; its offsets stay.</param>
    /// <param name="second">The second block.</param>
    public static BlockResult WithGain(BlockResult first, BlockResult second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var apart = second.BlockCelsius - first.BlockCelsius;
        return first with
        {
            Probes = [.. first.Probes.Select(probe => second.Probes.FirstOrDefault(other => other.Sensor == probe.Sensor) is { } other
                ? probe with { GainError = (other.OffsetKelvins - probe.OffsetKelvins) / apart }
                : probe)],
        };
    }

    private static SortedDictionary<int, double> Middle(Dictionary<int, SortedDictionary<int, double>> probes, BlockReference reference)
    {
        if (reference.Sensor >= 0)
        {
            return probes[reference.Sensor];
        }

        var values = new SortedDictionary<int, List<double>>();
        foreach (var (minute, value) in probes.Values.SelectMany(minutes => minutes))
        {
            (values.TryGetValue(minute, out var known) ? known : values[minute] = []).Add(value);
        }

        return new(values.ToDictionary(minute => minute.Key, minute => Univariate.Median(minute.Value)));
    }

    private static (int From, int To)? Settled(SortedDictionary<int, double> middle, out double moved)
    {
        var minutes = middle.Keys.ToArray();
        var values = middle.Values.ToArray();
        moved = 0;
        (int, int)? settled = null;
        for (var from = minutes.Length - LeastMinutes; from >= 0; from--)
        {
            var movedNow = Moved(minutes[from..], values[from..]);
            if (movedNow > SettledKelvins)
            {
                moved = settled is null ? movedNow : moved;
                break;
            }

            settled = (minutes[from], minutes[^1]);
        }

        return settled;
    }

    private static double Moved(int[] minutes, double[] values) =>
        Math.Abs(LinearRegression.Line([.. minutes.Select(m => (double)(m - minutes[0]))], values).Coefficients[1]) * (minutes[^1] - minutes[0]);

    private static BlockResult Result(
        BlockReadings readings, Dictionary<int, SortedDictionary<int, double>> probes, SortedDictionary<int, double> middle, BlockReference reference, (int From, int To) window)
    {
        List<ProbeOffset> judged = [];
        List<string> leftOut = [];
        foreach (var (probe, minutes) in probes.Where(probe => probe.Key != reference.Sensor).OrderBy(probe => probe.Key))
        {
            var id = readings.Cell.Sensors[probe].Id;
            var inside = minutes.Where(m => m.Key >= window.From && m.Key <= window.To && middle.ContainsKey(m.Key)).ToArray();
            double[] differences = [.. inside.Select(m => m.Value - (reference.Celsius ?? middle[m.Key]))];
            if (differences.Length < LeastMinutes || differences.Length < LeastShareOfMinutes * (window.To - window.From + 1))
            {
                leftOut.Add($"{id}: readings in {differences.Length} of {window.To - window.From + 1} minutes, too few to judge");
            }
            else if (Math.Abs(differences.Average()) > NotInTheBlockKelvins)
            {
                leftOut.Add(string.Create(CultureInfo.InvariantCulture, $"{id}: {differences.Average():0.0} K away from the block, so it does not seem to be in it"));
            }
            else
            {
                judged.Add(Offset(readings, probe, [.. inside.Select(m => m.Key)], differences, reference));
            }
        }

        return new BlockResult(
            DateTimeOffset.FromUnixTimeSeconds(window.From * 60L),
            DateTimeOffset.FromUnixTimeSeconds((window.To + 1) * 60L),
            reference.Celsius ?? middle.Where(m => m.Key >= window.From && m.Key <= window.To).Average(m => m.Value),
            reference.Sensor < 0 && reference.Celsius is null ? WithMiddle(judged) : judged,
            leftOut);
    }

    private static ProbeOffset Offset(BlockReadings readings, int probe, int[] minutes, double[] differences, BlockReference reference)
    {
        var sensor = readings.Cell.Sensors[probe];
        var drift = LinearRegression.Line([.. minutes.Select(m => (double)(m - minutes[0]))], differences).Coefficients[1] * (minutes[^1] - minutes[0]);
        var spread = Univariate.StandardDeviation(differences);
        var typeA = spread == 0 ? 0 : spread / Math.Sqrt(EffectiveSampleSize.OfSeries(differences));
        var digit = sensor.Resolution ?? 0;
        var variance = (typeA * typeA) + (drift * drift / 12) + (digit * digit / 12) + (reference.UncertaintyKelvins * reference.UncertaintyKelvins);
        return new ProbeOffset(
            sensor.Id, differences.Average(), Math.Sqrt(variance), readings.RepeatabilityOf(probe, minutes[0], minutes[^1]), drift, differences.Length);
    }

    // The middle itself is as sure as the probes that make it agree.
    private static ProbeOffset[] WithMiddle(List<ProbeOffset> probes)
    {
        var of = probes.Count < 2 ? 0 : Univariate.StandardDeviation([.. probes.Select(p => p.OffsetKelvins)]) / Math.Sqrt(probes.Count);
        return [.. probes.Select(p => p with { UncertaintyKelvins = Math.Sqrt((p.UncertaintyKelvins * p.UncertaintyKelvins) + (of * of)) })];
    }
}
