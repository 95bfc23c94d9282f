using System.Globalization;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>The points of a machine's chart: local times and values, a gap where a value is not known. Pure.</summary>
public sealed record ChartPoints
{
    /// <summary>Local times of the past, as the chart reads them.</summary>
    public required IReadOnlyList<string> Times { get; init; }

    /// <summary>Local air, in °C; null is a gap.</summary>
    public required IReadOnlyList<double?> Air { get; init; }

    /// <summary>Coolant, in °C; null is a gap.</summary>
    public required IReadOnlyList<double?> Coolant { get; init; }

    /// <summary>Part, in °C; null is a gap.</summary>
    public required IReadOnlyList<double?> Part { get; init; }

    /// <summary>Scale, in °C; null is a gap.</summary>
    public required IReadOnlyList<double?> Scale { get; init; }

    /// <summary>Effect on the deciding feature, in µm; null while another feature decided or it was not known.</summary>
    public required IReadOnlyList<double?> Effect { get; init; }

    /// <summary>Local times of the coming cut.</summary>
    public required IReadOnlyList<string> AheadTimes { get; init; }

    /// <summary>The expected effect over the coming cut, in µm.</summary>
    public required IReadOnlyList<double?> Ahead { get; init; }

    /// <summary>Budget of the deciding feature, in µm, or null.</summary>
    public required double? Budget { get; init; }

    /// <summary>Now.</summary>
    public required string Now { get; init; }

    /// <summary>End of the coming cut, or null without a job.</summary>
    public required string? CutEnd { get; init; }

    /// <summary>The points of a machine.</summary>
    public static ChartPoints Of(MachineSnapshot machine, Standing standing, DateTimeOffset now, CellTime time)
    {
        ArgumentNullException.ThrowIfNull(machine);
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(time);
        var worst = standing.Worst;
        var trace = WithGaps(machine.Trace);
        var cut = standing.Features.Count > 0 ? machine.Outlook.CutDuration : null;
        var trail = worst is not null && cut is not null ? worst.TrailMicrometres : [];
        return new ChartPoints
        {
            Times = [.. trace.Select(p => Stamp(time, p.Time))],
            Air = [.. trace.Select(p => Known(p.AirCelsius))],
            Coolant = [.. trace.Select(p => Known(p.CoolantCelsius))],
            Part = [.. trace.Select(p => Known(p.PartCelsius))],
            Scale = [.. trace.Select(p => Known(p.ScaleCelsius))],
            Effect = [.. trace.Select(p => worst is not null && p.Feature == worst.Feature ? Known(p.EffectMicrometres) : null)],
            AheadTimes = [.. trail.Select((_, i) => Stamp(time, now + (cut!.Value * i / Math.Max(1, trail.Count - 1))))],
            Ahead = [.. trail.Select(Known)],
            Budget = worst is { BudgetMicrometres: > 0 } ? Known(worst.BudgetMicrometres) : null,
            Now = Stamp(time, now),
            CutEnd = cut is { } length ? Stamp(time, now + length) : null,
        };
    }

    // Minutes that are absent altogether are a gap as well, so that no line runs across an outage.
    private static List<TracePoint> WithGaps(IReadOnlyList<TracePoint> trace)
    {
        var points = new List<TracePoint>(trace.Count);
        foreach (var point in trace)
        {
            if (points.Count > 0 && point.Time - points[^1].Time > TimeSpan.FromMinutes(3))
            {
                points.Add(new TracePoint(
                    points[^1].Time.AddMinutes(1), double.NaN, double.NaN, double.NaN, double.NaN, null, double.NaN, double.NaN, Level.NotKnown));
            }

            points.Add(point);
        }

        return points;
    }

    private static double? Known(double value) => double.IsFinite(value) ? Math.Round(value, 3) : null;

    private static string Stamp(CellTime time, DateTimeOffset moment) =>
        time.Local(moment).ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture);
}
