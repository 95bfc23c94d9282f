using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Takes overrides: who, why, for which work, until when; two persons for a critical part; never past the end of the shift.</summary>
internal sealed class OverrideDesk(Cell cell)
{
    // Without shifts in the plant file an override lasts as long as a shift usually does.
    private static readonly TimeSpan MostWithoutShifts = TimeSpan.FromHours(8);

    private readonly ShiftClock shifts = new(cell);

    /// <summary>The override that follows from what was said, or why there is none.</summary>
    public (ActiveOverride? Next, string? Refused) Take(ActiveOverride? current, Overridden said, PartClass partClass, DateTimeOffset now)
    {
        var end = shifts.EndOfShift(now) ?? now + MostWithoutShifts;
        var until = said.Until < end ? said.Until : end;
        if (until <= now)
        {
            return (null, $"the override of {said.By} ends before it begins ({said.Until:O})");
        }

        if (partClass != PartClass.Critical)
        {
            return (new(said.Serial, said.Operation, said.By, null, said.Reason, now, until, InForce: true), null);
        }

        var second = said.ApprovedBy is { } approver && !SamePerson(approver, said.By) ? approver : null;
        if (second is null && Waits(current, said, now) && !SamePerson(current!.By, said.By))
        {
            return (current with { SecondBy = said.By, Until = until < current.Until ? until : current.Until, InForce = true }, null);
        }

        return (new(said.Serial, said.Operation, said.By, second, said.Reason, now, until, InForce: second is not null), null);
    }

    private static bool Waits(ActiveOverride? current, Overridden said, DateTimeOffset now) =>
        current is { InForce: false } && current.Serial == said.Serial && current.Operation == said.Operation && now < current.Until;

    private static bool SamePerson(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);
}
