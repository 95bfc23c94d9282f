namespace ClimateGuard.Enclosure;

/// <summary>All causes and the rules that judge them.</summary>
public static class Catalogue
{
    /// <summary>The causes, F01 to F34.</summary>
    public static IReadOnlyList<FaultCause> All { get; } =
    [
        F04ValveLeaking.Cause, F05ValveStuck.Cause, F26OutdoorDamper.Cause,
    ];

    internal static IReadOnlyList<Func<HandlerCase, IEnumerable<Assessment>>> OfHandlers { get; } =
    [
        F04ValveLeaking.Judge, F05ValveStuck.Judge, F26OutdoorDamper.Judge,
    ];

    /// <summary>The cause of that id, or null.</summary>
    public static FaultCause? Find(string id) => All.FirstOrDefault(cause => cause.Id == id);
}
