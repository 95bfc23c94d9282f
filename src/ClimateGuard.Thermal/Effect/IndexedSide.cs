using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The sign with which a shift of the tool along machine X and Y lands on a part, by the way its table stands.</summary>
/// <remarks>
/// A tool that has moved by D against the table cuts at D in machine axes, whichever side of the part faces it. The part was set up with its first two
/// axes along machine X and Y, so on its first side that is D in the frame of the part as well. A half-turn about the unit axis u takes a vector v to
/// 2·(u·v)·u − v, and is its own inverse; so the cut on the other side lies at 2·(u·D)·u − D in the frame of the part: what lies along the axis keeps
/// its sign, what lies across it changes. B turns about Y: (−X, +Y). A turns about X: (+X, −Y). C turns about Z: (−X, −Y). The mismatch grows the
/// part from its datum whichever way it stands, and is not turned.
/// </remarks>
/// <param name="X">Sign of a shift along machine X, 1 or −1.</param>
/// <param name="Y">Sign of a shift along machine Y, 1 or −1.</param>
public readonly record struct IndexedSide(double X, double Y)
{
    /// <summary>As the part was set up.</summary>
    public static IndexedSide First => new(1, 1);

    /// <summary>The other side, after a half-turn about a rotary axis.</summary>
    /// <param name="axis">The axis of the table.</param>
    public static IndexedSide AfterHalfTurn(RotaryAxis axis) => axis switch
    {
        RotaryAxis.A => new(1, -1),
        RotaryAxis.B => new(-1, 1),
        _ => new(-1, -1),
    };
}
