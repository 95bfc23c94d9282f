using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>From which probability on the cell holds: that of the plant file, or a higher one since too few holds were confirmed.</summary>
/// <remarks>
/// A person is believed less each time a hold was wrong, so with a confirmed share below 0.7 over the last 20 decided holds the threshold goes up
/// to the next value of the grid (common practice, no source), and the count begins anew. It comes down only by a person: a plant file with
/// another <c>probability.hold</c>, or a reset. Every machine remembers the same one. Immutable.
/// </remarks>
public sealed record HoldThreshold
{
    /// <summary>How many decided holds are looked at.</summary>
    public const int Window = 20;

    /// <summary>The confirmed share below which it goes up.</summary>
    public const double LeastConfirmed = 0.7;

    /// <summary>The threshold of the plant file that this one counts from, in (0, 1).</summary>
    public required double Stated { get; init; }

    /// <summary>The threshold in force, in (0, 1), not below <see cref="Stated"/>.</summary>
    public required double InForce { get; init; }

    /// <summary>The decided holds since it last moved, oldest first: whether each was confirmed.</summary>
    public IReadOnlyList<bool> Confirmed { get; init; } = [];

    /// <summary>Counts every change of this value; the higher one is the newer.</summary>
    public long Seq { get; init; }

    /// <summary>The threshold of a plant file.</summary>
    /// <param name="policies">Its policies.</param>
    public static HoldThreshold Of(Policies policies)
    {
        ArgumentNullException.ThrowIfNull(policies);
        return new HoldThreshold { Stated = policies.Probability.Hold, InForce = policies.Probability.Hold };
    }

    /// <summary>This one, as far as it still fits a plant file: another stated threshold was a person's decision and begins anew.</summary>
    /// <param name="policies">The policies of the plant file.</param>
    public HoldThreshold Under(Policies policies)
    {
        ArgumentNullException.ThrowIfNull(policies);
        return policies.Probability.Hold == Stated ? this : Of(policies) with { Seq = Seq + 1 };
    }

    /// <summary>The policies with this threshold.</summary>
    /// <param name="policies">The policies of the plant file.</param>
    public Policies Over(Policies policies)
    {
        ArgumentNullException.ThrowIfNull(policies);
        return InForce > policies.Probability.Hold ? policies with { Probability = policies.Probability with { Hold = InForce } } : policies;
    }

    /// <summary>After a measurement judged a hold.</summary>
    /// <param name="verdict">What it said; undecided changes nothing.</param>
    /// <param name="grid">The values it may take, ascending; empty: it never moves.</param>
    /// <returns>The next one; its <see cref="InForce"/> is higher when it went up.</returns>
    public HoldThreshold After(HoldVerdict verdict, IReadOnlyList<double> grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (verdict == HoldVerdict.Undecided || grid.Count == 0)
        {
            return this;
        }

        IReadOnlyList<bool> decided = [.. Confirmed.TakeLast(Window - 1), verdict == HoldVerdict.Confirmed];
        var next = this with { Confirmed = decided, Seq = Seq + 1 };
        if (decided.Count < Window || decided.Count(right => right) >= LeastConfirmed * Window)
        {
            return next;
        }

        var higher = grid.Where(value => value > InForce).Order().FirstOrDefault();
        return higher > 0 ? next with { InForce = higher, Confirmed = [] } : next;
    }

    /// <summary>After a person set it back to what the plant file says.</summary>
    public HoldThreshold Reset() => this with { InForce = Stated, Confirmed = [], Seq = Seq + 1 };

    /// <inheritdoc/>
    public bool Equals(HoldThreshold? other) =>
        other is not null && (Stated, InForce, Seq) == (other.Stated, other.InForce, other.Seq) && Confirmed.SequenceEqual(other.Confirmed);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Stated, InForce, Seq, Confirmed.Count);
}
