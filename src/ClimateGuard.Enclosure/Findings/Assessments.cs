namespace ClimateGuard.Enclosure;

/// <summary>What all rules say about one window of an air handler and the zone it leads.</summary>
internal static class Assessments
{
    /// <summary>The assessments, in the order of the catalogue.</summary>
    /// <param name="known">The air handler.</param>
    /// <param name="zone">The zone it leads, or null when another one leads it.</param>
    /// <param name="wanted">Which causes to look for.</param>
    public static IReadOnlyList<Assessment> Of(HandlerCase known, ZoneCase? zone, Func<FaultCause, bool> wanted)
    {
        var rules = new Lazy<IReadOnlyDictionary<int, int>>(() => RuleTally.Of(known.Signals));
        var found = Catalogue.OfHandlers.Where(entry => wanted(entry.Cause)).SelectMany(entry => entry.Rule(known))
            .Select(assessment => RuleTally.Supports(assessment) ? RuleTally.Support(assessment, rules.Value) : assessment).ToList();
        if (zone is not null) found.AddRange(Catalogue.OfZones.Where(entry => wanted(entry.Cause)).SelectMany(entry => entry.Rule(zone)));
        return found;
    }
}
