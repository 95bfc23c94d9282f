namespace ClimateGuard.Watch;

/// <summary>The recent past of a machine, one point a minute, the oldest dropped after <see cref="Most"/> points.</summary>
/// <remarks>Immutable: adding returns a new trace that shares the old points.</remarks>
public sealed class Trace
{
    /// <summary>How many points are kept.</summary>
    public const int Most = 360;

    private readonly TracePoint[] points;

    private Trace(TracePoint[] points) => this.points = points;

    /// <summary>No past.</summary>
    public static Trace Empty { get; } = new([]);

    /// <summary>The points, oldest first.</summary>
    public IReadOnlyList<TracePoint> Points => points;

    /// <summary>Whether a point of this moment would be kept: the last one is a minute old, or there is none.</summary>
    /// <param name="time">The moment.</param>
    public bool WantsPointAt(DateTimeOffset time) => points.Length == 0 || time - points[^1].Time >= TimeSpan.FromMinutes(1);

    /// <summary>A trace with this point added, when it is wanted; else this trace.</summary>
    /// <param name="point">The point.</param>
    public Trace With(in TracePoint point)
    {
        if (!WantsPointAt(point.Time))
        {
            return this;
        }

        var from = Math.Max(0, points.Length + 1 - Most);
        var next = new TracePoint[points.Length + 1 - from];
        Array.Copy(points, from, next, 0, points.Length - from);
        next[^1] = point;
        return new(next);
    }
}
