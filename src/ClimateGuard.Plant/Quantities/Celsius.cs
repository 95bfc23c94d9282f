namespace ClimateGuard.Plant;

/// <summary>A temperature, in °C.</summary>
/// <remarks>
/// Equality and order are those of the number. Sensible values lie in [-90, 400] °C, which the edges check; the default is 0 °C.
/// Immutable, so safe across threads. Subtracting two temperatures gives <see cref="Kelvins"/>; adding two does not compile.
/// </remarks>
/// <param name="Value">The temperature, in °C.</param>
public readonly record struct Celsius(double Value) : IComparable<Celsius>
{
    /// <summary>The standard reference temperature for lengths, 20 °C (ISO 1).</summary>
    public static Celsius Reference { get; } = new(20.0);

    /// <summary>The distance from the 20 °C at which lengths are stated (ISO 1).</summary>
    public Kelvins FromReference => new(Value - Reference.Value);

    /// <inheritdoc/>
    public int CompareTo(Celsius other) => Value.CompareTo(other.Value);

    /// <summary>The difference of two temperatures.</summary>
    public static Kelvins operator -(Celsius left, Celsius right) => new(left.Value - right.Value);

    /// <summary>A temperature moved by a difference.</summary>
    public static Celsius operator +(Celsius left, Kelvins right) => new(left.Value + right.Value);

    /// <summary>A temperature moved down by a difference.</summary>
    public static Celsius operator -(Celsius left, Kelvins right) => new(left.Value - right.Value);

    /// <summary>Whether the left temperature is lower.</summary>
    public static bool operator <(Celsius left, Celsius right) => left.Value < right.Value;

    /// <summary>Whether the left temperature is higher.</summary>
    public static bool operator >(Celsius left, Celsius right) => left.Value > right.Value;

    /// <summary>Whether the left temperature is lower or equal.</summary>
    public static bool operator <=(Celsius left, Celsius right) => left.Value <= right.Value;

    /// <summary>Whether the left temperature is higher or equal.</summary>
    public static bool operator >=(Celsius left, Celsius right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{Value:0.###} °C");
}
