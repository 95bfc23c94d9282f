using System.Globalization;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Raises alarms about the disk and the files of the history, and clears them; pure.</summary>
/// <remarks>Warnings from 85 % and from 95 % used; each clears two points below, so that one file more or less does not chatter.</remarks>
public sealed class StoreAlarms
{
    private const double Warning = 0.85;
    private const double Urgent = 0.95;
    private const double Slack = 0.02;

    private readonly HashSet<string> raised = new(StringComparer.Ordinal);

    /// <summary>What is to be told.</summary>
    /// <param name="usedShare">Used share of the disk in [0, 1], or null when not known: then nothing about it changes.</param>
    /// <param name="gap">What is not being kept, or null.</param>
    /// <param name="damaged">Where damaged months now lie.</param>
    /// <param name="cellTime">The moment by the clock of the cell.</param>
    public IReadOnlyList<AlertRaised> Step(double? usedShare, HistoryGap? gap, IReadOnlyList<string> damaged, DateTimeOffset cellTime)
    {
        ArgumentNullException.ThrowIfNull(damaged);
        var found = new List<Alert?>();
        if (usedShare is { } used)
        {
            foreach (var limit in (ReadOnlySpan<double>)[Warning, Urgent])
            {
                var percent = string.Create(CultureInfo.InvariantCulture, $"{limit * 100:0} %");
                var id = string.Create(CultureInfo.InvariantCulture, $"disk/{limit * 100:0}");
                found.Add(Change(
                    id, "disk fills", used >= (raised.Contains(id) ? limit - Slack : limit),
                    string.Create(CultureInfo.InvariantCulture, $"The disk of the store is used to {used * 100:0} %."),
                    "Free some space on the disk of Storage:Path, or keep readings for fewer days (Storage:Retention).",
                    $"The disk of the store is used to less than {percent} again."));
            }
        }

        found.Add(Change(
            "disk/full", "readings are not kept", gap is not null,
            "The disk of the store is full: readings are judged and used, but no longer kept. Decisions and the ledger go on.",
            "Free some space on the disk of Storage:Path now; keeping goes on by itself.", "Readings are kept again."));
        found.AddRange(damaged.Select(path => Change(
            $"damaged/{Path.GetFileName(path)}", "history damaged", true,
            $"A file of the history was damaged and now lies at {path}; its month is missing from charts.",
            "Keep that file, and put back the one of the last backup while the worker is stopped.", "")));
        return [.. found.OfType<Alert>().Select(alert => new AlertRaised(cellTime, alert))];
    }

    private Alert? Change(string id, string cause, bool stands, string text, string action, string over)
    {
        if (stands ? !raised.Add(id) : !raised.Remove(id))
        {
            return null;
        }

        return new Alert(id, null, cause, stands ? text : over, stands ? action : "Nothing to do.", Cleared: !stands);
    }
}
