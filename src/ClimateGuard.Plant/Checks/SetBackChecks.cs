namespace ClimateGuard.Plant;

/// <summary>Checks of the set-backs of a zone: readable, long enough to be one, one at a time, and elsewhere than the zone.</summary>
internal static class SetBackChecks
{
    public static void Run(CheckRun run, ZoneDraft zone, string path)
    {
        var earlier = new List<(int Index, int From, int Minutes)>();
        foreach (var (index, setBack) in CheckRun.Numbered(zone.SetBacks))
        {
            var place = $"{path}/setBacks/{index}";
            if (setBack.SetpointC is { } setpoint && setpoint == (zone.SetpointC ?? Celsius.Reference.Value))
                run.Add($"{place}/setpointC", PlantMessages.SetBackNowhere(setpoint));
            if (!Time(run, setBack.From, $"{place}/from", out var from) | !Time(run, setBack.Until, $"{place}/until", out var until)) continue;
            if (from == until)
            {
                run.Add($"{place}/until", PlantMessages.SetBackWithoutLength(from.ToString()));
                continue;
            }

            var span = (Index: index, From: from.MinuteOfWeek, Minutes: After(from.MinuteOfWeek, until.MinuteOfWeek));
            if (earlier.Where(other => Meet(other, span)).Select(other => (int?)other.Index).FirstOrDefault() is { } first)
                run.Add($"{place}/from", PlantMessages.SetBacksMeet(first));
            earlier.Add(span);
        }
    }

    private static bool Time(CheckRun run, string? text, string path, out WeekTime time)
    {
        time = default;
        if (text is null) return false;
        if (ShiftDays.TryWeekTime(text, out time)) return true;
        run.Add(path, PlantMessages.WeekTimeUnreadable(text));
        return false;
    }

    // Around the week: one begins within the other.
    private static bool Meet((int Index, int From, int Minutes) a, (int Index, int From, int Minutes) b) =>
        After(a.From, b.From) < a.Minutes || After(b.From, a.From) < b.Minutes;

    private static int After(int from, int to) => (to - from + WeekTime.MinutesPerWeek) % WeekTime.MinutesPerWeek;
}
