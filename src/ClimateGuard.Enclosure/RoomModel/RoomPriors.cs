namespace ClimateGuard.Enclosure;

/// <summary>What is thought of a parameter before any data.</summary>
/// <param name="Middle">The likeliest value, in its unit.</param>
/// <param name="Factor">Two thirds lie between the middle divided and multiplied by it; for <see cref="RoomParameter.Base"/> the deviation in W.</param>
public readonly record struct RoomPrior(double Middle, double Factor);

/// <summary>What is thought of a zone before any data. Immutable.</summary>
/// <remarks>
/// Half of a cell of 24 × 14 × 6 m (common practice, no source), each within a factor of three, so that a prior alone never counts as known.
/// Only the heat of the machines is better known, because electric power becomes heat: nine tenths of it stay in the zone, within a fifth.
/// </remarks>
public sealed record RoomPriors
{
    private readonly RoomPrior[] priors;

    private RoomPriors(RoomPrior[] priors) => this.priors = priors;

    /// <summary>Those of a zone of which nothing is known.</summary>
    public static RoomPriors Usual { get; } = new(
    [
        new(4.2e6, 3), new(60e6, 3), new(2200, 3), new(300, 3), new(5500, 3), new(1000, 3), new(3000, 3), new(0.9, 1.2), new(1500, 3000),
    ]);

    /// <summary>The room that is thought of.</summary>
    public RoomModel Room => new([.. priors.Select(prior => prior.Middle)]);

    /// <summary>The prior of a parameter.</summary>
    public RoomPrior this[RoomParameter parameter] => priors[(int)parameter];

    /// <summary>The same with something better known, such as the air flow from the fan's data.</summary>
    /// <param name="parameter">Which.</param>
    /// <param name="middle">Its value, in its unit.</param>
    /// <param name="factor">How well it is known: above 1; 1.15 is a fan that was measured.</param>
    public RoomPriors With(RoomParameter parameter, double middle, double factor)
    {
        if (!double.IsFinite(middle) || (parameter != RoomParameter.Base && (middle <= 0 || factor <= 1)) || !(factor > 0))
            throw new ArgumentOutOfRangeException(nameof(middle), middle, $"{parameter} needs a middle above 0 and a factor above 1.");
        RoomPrior[] next = [.. priors];
        next[(int)parameter] = new RoomPrior(middle, factor);
        return new RoomPriors(next);
    }
}
