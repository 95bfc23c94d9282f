namespace ClimateGuard.Plant;

/// <summary>A difference of temperatures, in K.</summary>
/// <remarks>
/// Equality and order are those of the number. Any finite value is allowed; the default is 0 K. Immutable, so safe across threads.
/// A difference is never a temperature: that is the one error a unit in a name does not stop, hence the two types.
/// </remarks>
/// <param name="Value">The difference, in K.</param>
public readonly record struct Kelvins(double Value) : IComparable<Kelvins>
{
    /// <inheritdoc/>
    public int CompareTo(Kelvins other) => Value.CompareTo(other.Value);

    /// <summary>The sum of two differences.</summary>
    public static Kelvins operator +(Kelvins left, Kelvins right) => new(left.Value + right.Value);

    /// <summary>The difference of two differences.</summary>
    public static Kelvins operator -(Kelvins left, Kelvins right) => new(left.Value - right.Value);

    /// <summary>Whether the left difference is smaller.</summary>
    public static bool operator <(Kelvins left, Kelvins right) => left.Value < right.Value;

    /// <summary>Whether the left difference is larger.</summary>
    public static bool operator >(Kelvins left, Kelvins right) => left.Value > right.Value;

    /// <summary>Whether the left difference is smaller or equal.</summary>
    public static bool operator <=(Kelvins left, Kelvins right) => left.Value <= right.Value;

    /// <summary>Whether the left difference is larger or equal.</summary>
    public static bool operator >=(Kelvins left, Kelvins right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{Value:0.###} K");
}
