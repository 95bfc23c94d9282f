using ClimateGuard.Thermal;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>How a machine stands on the screen: its outlook while it may be trusted, else not known.</summary>
public sealed record Standing
{
    private const string AskFirst = "Do not rely on this screen: ask before the finish cut.";

    /// <summary>The level to show.</summary>
    public required Level Level { get; init; }

    /// <summary>The one action.</summary>
    public required string Action { get; init; }

    /// <summary>The reason.</summary>
    public required string Reason { get; init; }

    /// <summary>The feature that decides, or null.</summary>
    public FeatureOutlook? Worst { get; init; }

    /// <summary>All features; empty when nothing can be said of them.</summary>
    public IReadOnlyList<FeatureOutlook> Features { get; init; } = [];

    /// <summary>When the cut could start, or null.</summary>
    public DateTimeOffset? EarliestSafe { get; init; }

    /// <summary>It was looked for, and it is not within the forecast.</summary>
    public bool NotWithinForecast { get; init; }

    /// <summary>How the machine stands.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="now">The moment of the snapshot, in the time in which outlooks expire.</param>
    /// <param name="workerSilent">The worker has shown nothing new for too long.</param>
    /// <param name="time">The clock of the cell.</param>
    public static Standing Of(MachineSnapshot machine, DateTimeOffset now, bool workerSilent, CellTime time)
    {
        ArgumentNullException.ThrowIfNull(machine);
        ArgumentNullException.ThrowIfNull(time);
        var outlook = machine.Outlook;
        if (workerSilent)
        {
            return NotKnown($"The worker is silent since {time.Clock(now)}; what it said then may be wrong now.");
        }

        if (now > outlook.ValidUntil)
        {
            return NotKnown($"The last outlook was good until {time.Near(outlook.ValidUntil, now)} and was not renewed.");
        }

        return new Standing
        {
            Level = outlook.Level,
            Action = outlook.Action,
            Reason = outlook.Cause ?? outlook.Reason,
            Worst = outlook.Worst,
            Features = outlook.Features,
            EarliestSafe = outlook.EarliestSafe,
            NotWithinForecast = outlook.Start is NotWithinForecast,
        };
    }

    private static Standing NotKnown(string reason) => new() { Level = Level.NotKnown, Action = AskFirst, Reason = reason };
}
