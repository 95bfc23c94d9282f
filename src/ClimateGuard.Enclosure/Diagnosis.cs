using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Which cause, how sure, what to check first: from the signals of a cell over any time.</summary>
public static class Diagnosis
{
    private const int LeastMinutes = 120;
    private const int LeastMinutesOfDay = 360;

    /// <summary>Diagnoses the air handlers of a cell.</summary>
    /// <param name="frame">The signals.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="options">How.</param>
    /// <remarks>Each day is judged against what the other days show; a day alone is judged against what holds for any such unit.</remarks>
    public static DiagnosisReport Of(SignalFrame frame, Cell cell, DiagnosisOptions options)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(options);
        var notes = new List<string>(frame.Notes);
        var days = LongEnough(LocalDays.Of(frame, options.TimeZone), options.ByDay, notes);
        var limits = new FindingLimits(cell.Description.Policies);
        var findings = new List<Finding>();
        var none = new List<NoneOfThese>();
        foreach (var handler in cell.Description.AirHandlers)
        {
            var judged = new HandlerHistory(cell, handler, days).Judge(limits, options.Priors);
            var told = options.ByDay ? judged.SelectMany(day => day.Findings).ToList() : WholeTime.Of([.. judged.SelectMany(day => day.Findings)]);
            findings.AddRange(told);
            if (options.ByDay) none.AddRange(judged.Select(day => new NoneOfThese(day.Date, handler.Id, CauseRanking.NoneOfThese(day.Findings))));
            else none.Add(new NoneOfThese(null, handler.Id, CauseRanking.NoneOfThese(told)));
        }

        return new DiagnosisReport
        {
            Findings = [.. findings.OrderBy(f => f.Day ?? DateOnly.MinValue).ThenByDescending(f => f.LogOdds)],
            None = none,
            Notes = notes,
        };
    }

    // The few hours of a file that ends in another time zone are no day of their own.
    private static List<LocalDay> LongEnough(IReadOnlyList<LocalDay> days, bool byDay, List<string> notes)
    {
        var least = byDay && days.Count > 1 ? LeastMinutesOfDay : LeastMinutes;
        foreach (var day in days.Where(day => day.Frame.KnownMinutes < least))
        {
            notes.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"{day.Date:yyyy-MM-dd}: {day.Frame.KnownMinutes} min of readings are too few to judge; {least} min are needed."));
        }

        return [.. days.Where(day => day.Frame.KnownMinutes >= least)];
    }
}
