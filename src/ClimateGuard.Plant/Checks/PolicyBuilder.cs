namespace ClimateGuard.Plant;

/// <summary>Makes the policies from a checked draft.</summary>
internal static class PolicyBuilder
{
    public static Policies Build(PoliciesDraft? stated, DefaultsTaken taken)
    {
        const string path = "/policies";
        var policies = stated ?? new PoliciesDraft();
        var standIn = new Policies();
        return new Policies
        {
            GuardFactor = taken.Or(policies.GuardFactor, $"{path}/guardFactor", standIn.GuardFactor),
            Probability = Probability(policies.Probability ?? new ProbabilityDraft(), $"{path}/probability", taken),
            HoldGrid = HoldGrid(policies.HoldGrid, $"{path}/holdGrid", standIn, taken),
            Shifts = CellBuilder.Each(policies.Shifts, $"{path}/shifts", taken, (s, at) => Shift(s, at, taken)),
            Rates = policies.Rates is { } rates ? Rates(rates, $"{path}/rates", taken) : null,
            Findings = (policies.Findings ?? new Dictionary<string, IReadOnlyDictionary<string, double>?>())
                .Where(finding => finding.Value is not null)
                .ToDictionary(finding => finding.Key, finding => finding.Value!, StringComparer.Ordinal),
        };
    }

    private static ProbabilityLimits Probability(ProbabilityDraft limits, string path, DefaultsTaken taken)
    {
        var standIn = new ProbabilityLimits();
        return new ProbabilityLimits
        {
            Watch = taken.Or(limits.Watch, $"{path}/watch", standIn.Watch),
            Measure = taken.Or(limits.Measure, $"{path}/measure", standIn.Measure),
            Hold = taken.Or(limits.Hold, $"{path}/hold", standIn.Hold),
            ReleaseHold = taken.Or(limits.ReleaseHold, $"{path}/releaseHold", standIn.ReleaseHold),
            ReleaseMeasure = taken.Or(limits.ReleaseMeasure, $"{path}/releaseMeasure", standIn.ReleaseMeasure),
        };
    }

    private static IReadOnlyList<double> HoldGrid(IReadOnlyList<double?>? stated, string path, Policies standIn, DefaultsTaken taken)
    {
        if (stated is null)
        {
            taken.Note(path, $"[{string.Join(", ", standIn.HoldGrid.Select(value => value.ToString(System.Globalization.CultureInfo.InvariantCulture)))}]");
            return standIn.HoldGrid;
        }

        return [.. stated.Select((value, i) => CellBuilder.Stated(value, $"{path}/{i}"))];
    }

    private static Shift Shift(ShiftDraft shift, string path, DefaultsTaken taken)
    {
        if (shift.Days is null)
        {
            taken.Note($"{path}/days", $"[{string.Join(", ", ShiftDays.Words)}]");
        }

        return new Shift(
            CellBuilder.Stated(shift.Name, $"{path}/name"),
            Time(shift.From, $"{path}/from"),
            Time(shift.To, $"{path}/to"),
            [.. (shift.Days ?? ShiftDays.Words).Select((day, i) => ShiftDays.Day(CellBuilder.Stated(day, $"{path}/days/{i}")))]);
    }

    private static TimeOnly Time(string? text, string path) => ShiftDays.TryTime(CellBuilder.Stated(text, path), out var time)
        ? time
        : throw new ArgumentException(PlantMessages.ShiftTimeUnreadable(text!));

    private static Rates Rates(RatesDraft rates, string path, DefaultsTaken taken) => new(
        CellBuilder.Stated(rates.MachinePerHour, $"{path}/machinePerHour"),
        CellBuilder.Stated(rates.ScrapPerPart, $"{path}/scrapPerPart"),
        taken.Or(rates.Currency, $"{path}/currency", "EUR"));
}
