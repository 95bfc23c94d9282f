namespace ClimateGuard.Plant;

/// <summary>Checks of the policies: probability limits in order, shifts that make sense.</summary>
internal static class PolicyChecks
{
    public static void Run(CheckRun run)
    {
        if (run.Draft.Policies is not { } policies)
        {
            return;
        }

        Probability(run, policies.Probability ?? new ProbabilityDraft());
        HoldGrid(run, policies.HoldGrid);
        Shifts(run, policies.Shifts);
    }

    private static void Probability(CheckRun run, ProbabilityDraft stated)
    {
        var standIn = new ProbabilityLimits();
        var watch = ("watch", Value: stated.Watch ?? standIn.Watch, Stated: stated.Watch is not null);
        var measure = ("measure", Value: stated.Measure ?? standIn.Measure, Stated: stated.Measure is not null);
        var hold = ("hold", Value: stated.Hold ?? standIn.Hold, Stated: stated.Hold is not null);
        var releaseHold = ("releaseHold", Value: stated.ReleaseHold ?? standIn.ReleaseHold, Stated: stated.ReleaseHold is not null);
        var releaseMeasure =
            ("releaseMeasure", Value: stated.ReleaseMeasure ?? standIn.ReleaseMeasure, Stated: stated.ReleaseMeasure is not null);
        Below(run, watch, measure);
        Below(run, measure, hold);
        Below(run, releaseHold, hold);
        Below(run, releaseMeasure, measure);
    }

    private static void HoldGrid(CheckRun run, IReadOnlyList<double?>? grid)
    {
        for (var i = 1; i < (grid?.Count ?? 0); i++)
        {
            if (grid![i] <= grid[i - 1])
            {
                run.Add($"/policies/holdGrid/{i}", PlantMessages.HoldGridOrder);
            }
        }
    }

    private static void Below(
        CheckRun run, (string Key, double Value, bool Stated) low, (string Key, double Value, bool Stated) high)
    {
        if (low.Value >= high.Value)
        {
            var key = low.Stated ? low.Key : high.Key;
            run.Add($"/policies/probability/{key}", PlantMessages.ProbabilityOrder(low, high));
        }
    }

    private static void Shifts(CheckRun run, IReadOnlyList<ShiftDraft?>? shifts)
    {
        run.Unique(shifts, s => s.Name, "shift", "/policies/shifts", "name");
        foreach (var (index, shift) in CheckRun.Numbered(shifts))
        {
            var path = $"/policies/shifts/{index}";
            Time(run, shift.From, $"{path}/from");
            Time(run, shift.To, $"{path}/to");
            if (shift.From is { } from && from == shift.To)
            {
                run.Add($"{path}/to", PlantMessages.ShiftWithoutLength(from));
            }

            var days = new HashSet<string>(StringComparer.Ordinal);
            foreach (var (place, day) in CheckRun.Numbered(shift.Days))
            {
                if (!ShiftDays.Words.Contains(day, StringComparer.Ordinal))
                {
                    run.Add($"{path}/days/{place}", PlantMessages.ShiftDayUnknown(day, ShiftDays.Words));
                }
                else if (!days.Add(day))
                {
                    run.Add($"{path}/days/{place}", PlantMessages.ShiftDayTwice(day));
                }
            }
        }
    }

    private static void Time(CheckRun run, string? text, string path)
    {
        if (text is not null && !ShiftDays.TryTime(text, out _))
        {
            run.Add(path, PlantMessages.ShiftTimeUnreadable(text));
        }
    }
}
