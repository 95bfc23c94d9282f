namespace ClimateGuard.Enclosure;

/// <summary>The rungs of the ladder, the simplest first.</summary>
public enum AirModelKind
{
    /// <summary>The air stays as it is.</summary>
    Persistence,

    /// <summary>The air goes back to its operating level.</summary>
    Reversion,

    /// <summary>The air goes on as it went, less and less.</summary>
    DampedTrend,

    /// <summary>The room, its loop and its limits, driven by what is known ahead.</summary>
    Room,

    /// <summary>The air does what it did at the same clock time on the last ten days of that kind.</summary>
    SameClock,
}

/// <summary>One rung: a way to say what the air of a zone will be.</summary>
/// <remarks>It learns from steps in order and never sees a later one. Owned by one thread.</remarks>
internal abstract class AirModel
{
    /// <summary>Which rung.</summary>
    public abstract AirModelKind Kind { get; }

    /// <summary>Takes the last step of the course.</summary>
    public virtual void Take(ZoneCourse course)
    {
    }

    /// <summary>Fits what is costly to fit; called at most once an hour.</summary>
    public virtual void Learn(ZoneCourse course)
    {
    }

    /// <summary>The air expected, in °C; NaN where this rung has nothing to say.</summary>
    /// <param name="course">What was; its last step has an air.</param>
    /// <param name="coming">What is known ahead.</param>
    /// <param name="steps">How many steps ahead, ascending.</param>
    /// <param name="celsius">One value for each.</param>
    public abstract void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius);
}
