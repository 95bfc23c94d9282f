using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>One operation on one part on one machine: (serial, operation, machine, begin) is unique, so a rework is a step of its own.</summary>
/// <remarks>Immutable; equality is that of the reference members.</remarks>
public sealed record WorkStep
{
    /// <summary>Serial number, as it was last given.</summary>
    public required string Serial { get; init; }

    /// <summary>The serial it was loaded under, when it got another one while it was cut; or null.</summary>
    public string? FormerSerial { get; init; }

    /// <summary>Part number, or empty.</summary>
    public string Part { get; init; } = "";

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>Pallet, or null.</summary>
    public string? Pallet { get; init; }

    /// <summary>Place on a pallet of several parts, or null.</summary>
    public string? Nest { get; init; }

    /// <summary>Material batch, or null.</summary>
    public string? Batch { get; init; }

    /// <summary>Who worked at the machine, or null.</summary>
    public string? Operator { get; init; }

    /// <summary>Program with its revision, or null.</summary>
    public string? Program { get; init; }

    /// <summary>The tools of its cuts, in the order they were first named.</summary>
    public IReadOnlyList<string> Tools { get; init; } = [];

    /// <summary>When it was loaded, or the first that was heard of it.</summary>
    public required DateTimeOffset Begin { get; init; }

    /// <summary>When it was unloaded or something else was loaded; null while it stands there.</summary>
    public DateTimeOffset? End { get; init; }

    /// <summary>When the part came into the enclosure, or null.</summary>
    public DateTimeOffset? EnteredCell { get; init; }

    /// <summary>Its finish cuts, in order.</summary>
    public IReadOnlyList<CutSpan> Cuts { get; init; } = [];

    /// <summary>Everything that happened to it, in order: requests, probes, measurements, overrides, coolant.</summary>
    public IReadOnlyList<MachineEvent> Events { get; init; } = [];

    /// <summary>How the times of the cut are known.</summary>
    public CutBoundary Boundary => Cuts.Count > 0 ? CutBoundary.Cut : Events.Any(happened => happened is PermitRequested) ? CutBoundary.Request : CutBoundary.Job;

    /// <summary>The last request for one feature that no cut of its own followed, or null.</summary>
    /// <param name="feature">Id of the feature, or null.</param>
    public PermitRequested? RequestOf(string? feature) => feature is null || Cuts.Any(cut => cut.Feature == feature)
        ? null : Events.OfType<PermitRequested>().LastOrDefault(request => request.Feature == feature);

    /// <summary>From the begin of the first finish cut to the end of the last; null when nobody said.</summary>
    /// <param name="feature">Of the cuts of this feature where it has some of its own, else of all; null for all.</param>
    public (DateTimeOffset Start, DateTimeOffset? End)? Window(string? feature = null)
    {
        var own = Cuts.Where(cut => feature is not null && cut.Feature == feature).ToArray();
        if (own.Length == 0 && RequestOf(feature) is { } request) return (request.Time, request.Time + request.Planned);
        IReadOnlyList<CutSpan> cuts = own.Length > 0 ? own : Cuts;
        return cuts.Count == 0 ? null : (cuts[0].Start, cuts[^1].End);
    }
}

/// <summary>One finish cut; equality is by value.</summary>
/// <param name="Feature">Feature, or null for all of the operation.</param>
/// <param name="Hole">Hole number, or null.</param>
/// <param name="Start">Begin.</param>
/// <param name="End">End, or null when nobody said.</param>
/// <param name="Tool">The tool, or null.</param>
public sealed record CutSpan(string? Feature, int? Hole, DateTimeOffset Start, DateTimeOffset? End, string? Tool);

/// <summary>How the times of a cut are known; the earlier the better.</summary>
public enum CutBoundary
{
    /// <summary>The control said that the cut began.</summary>
    Cut,

    /// <summary>The control asked for it; when it began is taken from that.</summary>
    Request,

    /// <summary>Only that the part was on the machine.</summary>
    Job,
}
