using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>One machine's finish cut while it is recorded, with the hour before it.</summary>
internal sealed class CutRecorder
{
    private static readonly TimeSpan LeadIn = TimeSpan.FromHours(1);
    private static readonly TimeSpan LeastBetween = TimeSpan.FromSeconds(50);
    private readonly Queue<ExposureSample> before = new();
    private readonly List<ExposureSample> samples = [];

    /// <summary>What is cut, or null.</summary>
    public WorkOnMachine? Work { get; private set; }

    /// <summary>The part number of it.</summary>
    public string Part { get; private set; } = "";

    public DateTimeOffset Start { get; private set; }

    /// <summary>Nobody will say that it ends: a request whose cut is taken from it ends here.</summary>
    public DateTimeOffset? EndsAt { get; private set; }

    public AxisDrift? DriftAtStart { get; private set; }

    public IReadOnlyDictionary<string, Prediction> Frozen { get; private set; } = new Dictionary<string, Prediction>(StringComparer.Ordinal);

    public void Begin(WorkOnMachine work, string part, DateTimeOffset start, DateTimeOffset? endsAt, IReadOnlyDictionary<string, Prediction> frozen, AxisDrift? drift)
    {
        (Work, Part, Start, EndsAt, Frozen, DriftAtStart) = (work, part, start, endsAt, frozen, drift);
        samples.Clear();
        samples.AddRange(before);
    }

    /// <summary>Whether a sample at this moment would be a new one.</summary>
    public bool Wants(DateTimeOffset time)
    {
        var last = Work is null ? before.LastOrDefault() : samples.LastOrDefault();
        return last is null || time - last.Time >= LeastBetween;
    }

    public void Add(ExposureSample sample)
    {
        if (Work is not null)
        {
            // A moment that is told twice, before and after what happened at it, counts once.
            if (samples.Count > 0 && samples[^1].Time == sample.Time) samples.RemoveAt(samples.Count - 1);
            samples.Add(sample);
        }

        before.Enqueue(sample);
        while (before.Count > 0 && sample.Time - before.Peek().Time > LeadIn)
        {
            before.Dequeue();
        }
    }

    /// <summary>Ends it.</summary>
    public RecordedCut End(DateTimeOffset time)
    {
        var cut = new RecordedCut(Work!.Value, Part, Start, time, [.. samples], Frozen);
        (Work, EndsAt, DriftAtStart) = (null, null, null);
        samples.Clear();
        return cut;
    }
}

/// <summary>A finish cut as it was observed.</summary>
/// <param name="Work">What was cut where.</param>
/// <param name="Part">Part number.</param>
/// <param name="Start">Begin.</param>
/// <param name="End">End, or when it was given up.</param>
/// <param name="Samples">About one a minute, from an hour before.</param>
/// <param name="Frozen">What was predicted when it began, by feature.</param>
public sealed record RecordedCut(
    WorkOnMachine Work, string Part, DateTimeOffset Start, DateTimeOffset End, IReadOnlyList<ExposureSample> Samples, IReadOnlyDictionary<string, Prediction> Frozen);
