namespace ClimateGuard.Enclosure;

/// <summary>One finding for each cause over the whole time, from the findings of its days.</summary>
internal static class WholeTime
{
    /// <summary>The strongest day speaks; onset is the first day that reached even odds.</summary>
    public static IReadOnlyList<Finding> Of(IReadOnlyList<Finding> days) =>
    [
        .. days.GroupBy(f => (f.Assessment.Cause.Id, f.Assessment.Component, f.Assessment.AirHandler, f.Assessment.Zone, f.Assessment.Machine, f.Assessment.Sensor))
            .Select(group =>
            {
                var flagged = group.Where(f => f.Flagged).OrderBy(f => f.Day).ToList();
                return group.MaxBy(f => f.LogOdds)! with
                {
                    Day = null,
                    Onset = (flagged.Count > 0 ? flagged[0] : group.MaxBy(f => f.LogOdds)!).Onset,
                    Days = Math.Max(1, flagged.Count),
                };
            })
            .OrderByDescending(f => f.LogOdds),
    ];
}
