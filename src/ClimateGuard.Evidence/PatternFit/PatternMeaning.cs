using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>A part of a hole pattern that can stand out.</summary>
public enum PatternComponent
{
    /// <summary>All holes in, or all out.</summary>
    Scale,

    /// <summary>All holes the same way.</summary>
    Translation,

    /// <summary>All holes round the same way.</summary>
    Rotation,

    /// <summary>A scale that changes with the order of cutting.</summary>
    ScaleGrowingWithOrder,

    /// <summary>Two halves displaced against each other.</summary>
    TwoHalves,

    /// <summary>Nothing but scatter from hole to hole.</summary>
    ResidualOnly,
}

/// <summary>What a component of a pattern suspects, for the way the pattern was cut; equality is by value.</summary>
/// <remarks>Common practice of the trade, no source; the columns follow from which machine axis moves the tool towards which side of the part.</remarks>
/// <param name="Component">What stands out.</param>
/// <param name="Strategy">How the pattern was cut.</param>
/// <param name="SuspectFirst">Where to look first.</param>
/// <param name="Then">Where to look next.</param>
/// <param name="Thermal">Whether the first suspect is a temperature.</param>
public sealed record PatternMeaning(
    PatternComponent Component, CuttingStrategy Strategy, string SuspectFirst, string Then, bool Thermal)
{
    private const string Mismatch = "part against scale temperature at the cut, or temperature at the inspection";

    /// <summary>The meaning of a component under a strategy.</summary>
    /// <param name="component">What stands out.</param>
    /// <param name="strategy">How the pattern was cut.</param>
    /// <returns>The first suspect and the next.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The component or the strategy is not one of the named ones.</exception>
    public static PatternMeaning Of(PatternComponent component, CuttingStrategy strategy)
    {
        if (!Enum.IsDefined(strategy)) throw new ArgumentOutOfRangeException(nameof(strategy), strategy, "strategy must be one of the named ones.");
        var (first, then, thermal) = component switch
        {
            PatternComponent.Scale => Scale(strategy),
            PatternComponent.Translation => Translation(strategy),
            PatternComponent.Rotation => Rotation(strategy),
            PatternComponent.ScaleGrowingWithOrder => Growing(strategy),
            PatternComponent.TwoHalves => strategy == CuttingStrategy.TwoSided
                ? ("drift of the table pivot: the halves lie twice the drift apart", "slip in the fixture between the halves", true)
                : ("slip in the fixture, or a datum probed again between the halves", "spindle or head changed between the halves", false),
            PatternComponent.ResidualOnly => ("tool, entry, program or pitch error: mostly not temperature", "form of the datum, measurement scatter", false),
            _ => throw new ArgumentOutOfRangeException(nameof(component), component, "component must be one of the named ones."),
        };
        return new PatternMeaning(component, strategy, first, then, thermal);
    }

    private static (string, string, bool) Scale(CuttingStrategy strategy) => strategy switch
    {
        CuttingStrategy.TableIndexed => (Mismatch + "; as likely drift of the radial axis, which an indexed pattern shows as scale", "wrong compensation factors", true),
        CuttingStrategy.Turned => (Mismatch + "; as likely drift of X, which turning doubles on the diameter", "wrong compensation factors", true),
        _ => (Mismatch, "wrong compensation factors", true),
    };

    private static (string, string, bool) Translation(CuttingStrategy strategy) => strategy switch
    {
        CuttingStrategy.TableIndexed or CuttingStrategy.Turned =>
            ("datum moved or set off centre: drift of an axis cannot shift an indexed or turned pattern as a whole", "run-out of the table or chuck, chip on the datum", false),
        CuttingStrategy.TwoSided => ("drift along the axis of the half-turn since the datum was probed, which both halves show alike", "re-zero missed, chip on the datum", true),
        _ => ("drift since the datum was probed, re-zero missed, or the datum feature moved", "probe calibration, chip on the datum", true),
    };

    private static (string, string, bool) Rotation(CuttingStrategy strategy) => strategy switch
    {
        CuttingStrategy.TableIndexed => ("drift of the axis across the radius, which an indexed pattern shows as rotation", "clocking datum, rotary calibration", true),
        _ => ("clocking datum", "twist of table or structure, rotary calibration", false),
    };

    private static (string, string, bool) Growing(CuttingStrategy strategy) => strategy switch
    {
        CuttingStrategy.TableIndexed or CuttingStrategy.Turned =>
            ("temperature changing during the operation (coolant), or the radial axis drifting while it is cut", "tool heating and wear", true),
        _ => ("temperature changing during the operation (coolant)", "tool heating", true),
    };
}
