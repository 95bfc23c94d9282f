namespace ClimateGuard.Watch;

/// <summary>Puts the figures beside the published ones.</summary>
internal static class AlarmComparison
{
    private static readonly TimeSpan TenMinutes = TimeSpan.FromMinutes(10);

    public static IReadOnlyList<AlarmFigure> Of(AlarmFiguresReport report, AlarmTally tally, ShiftTally shifts)
    {
        var length = report.Time - report.Since;
        var hours = Math.Max(1, length.TotalHours);
        var periods = Math.Max(1, length / TenMinutes);
        var top = report.TopCauses.Sum(cause => cause.Share);
        return
        [
            Figure(report, "alarmsPerDay", report.Alarms / Math.Max(1, length.TotalDays), "alarms/day", AlarmLimits.PerDay),
            Figure(report, "alarmsPerHour", report.Alarms / hours, "alarms/h", AlarmLimits.PerHour),
            Figure(report, "alarmsPerTenMinutes", report.Alarms / periods, "alarms/10 min", AlarmLimits.PerTenMinutes),
            Now("alarmsInLastTenMinutes", report.InTenMinutes, "alarms", AlarmLimits.FloodBeginsAbove, AlarmLimits.Source),
            Now("mostAlarmsInTenMinutes", tally.MostInAPeriod, "alarms", AlarmLimits.FloodBeginsAbove, AlarmLimits.Source),
            Figure(report, "tenMinutePeriodsAboveTen", tally.PeriodsAbove(AlarmLimits.FloodBeginsAbove) / periods, "share", One(AlarmLimits.FloodShare)),
            Figure(report, "timeInFlood", report.FloodShare, "share", One(AlarmLimits.FloodShare)),
            Figure(report, "topTenShare", Math.Min(1, top), "share", AlarmLimits.TopTenShare),
            Now("chatteringCauses", tally.ChatteringCauses, "causes", 0, AlarmLimits.Source),
            Now("staleAlarms", report.Stale.Count, "alarms", AlarmLimits.StaleBelow - 1, AlarmLimits.Source),
            Figure(report, "priorityMedium", report.Priorities.Medium, "share", One(AlarmLimits.Priorities.Medium)),
            Figure(report, "priorityHigh", report.Priorities.High, "share", One(AlarmLimits.Priorities.High)),
            Figure(report, "alarmsPerShift", shifts.Mean ?? 0, "alarms/shift", AlarmLimits.PerShift, AlarmLimits.OwnSource),
            Now("mostAlarmsInAShift", shifts.Most, "alarms", AlarmLimits.PerShift.Manageable, AlarmLimits.OwnSource),
        ];
    }

    private static (double, double) One(double limit) => (limit, limit);

    private static AlarmFigure Figure(
        AlarmFiguresReport report, string name, double value, string unit, (double Acceptable, double Manageable) limits, string source = AlarmLimits.Source) =>
        new(name, value, unit, limits.Acceptable, limits.Manageable, report.EnoughEvidence ? Judge(value, limits.Acceptable, limits.Manageable) : AlarmStanding.NotJudged, source);

    /// <summary>A figure that needs no month of evidence: it is too high the moment it is.</summary>
    private static AlarmFigure Now(string name, double value, string unit, double limit, string source) =>
        new(name, value, unit, limit, limit, Judge(value, limit, limit), source);

    private static AlarmStanding Judge(double value, double acceptable, double manageable) =>
        value <= acceptable ? AlarmStanding.Acceptable : value <= manageable ? AlarmStanding.Manageable : AlarmStanding.TooMany;
}
