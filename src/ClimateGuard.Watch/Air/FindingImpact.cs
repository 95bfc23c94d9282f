using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A job whose finish cut stands worse than ready.</summary>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Part">Part number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="Feature">The feature that decides, or null.</param>
/// <param name="Level">How it stands.</param>
/// <param name="Probability">Probability that its effect leaves the budget during the cut, or null.</param>
/// <param name="FinishHours">How long the finish cut takes, in hours, or null when not known.</param>
/// <param name="WaitHours">How long until it could start safely, in hours; null when that is not known.</param>
public sealed record JobAtRisk(
    string Machine, string Serial, string Part, string Operation, string? Feature, Level Level, double? Probability, double? FinishHours, double? WaitHours);

/// <summary>What a finding puts at risk: the jobs on the machines it can reach, as the thermal model sees their finish cuts.</summary>
/// <param name="Jobs">The jobs at risk.</param>
/// <param name="Watched">How many jobs are loaded where it reaches.</param>
/// <param name="NotKnown">The machines whose outlook is not known.</param>
/// <param name="Text">The line for a person.</param>
public sealed record FindingImpact(IReadOnlyList<JobAtRisk> Jobs, int Watched, IReadOnlyList<string> NotKnown, string Text)
{
    /// <summary>The hours of finish cuts at risk.</summary>
    public double FinishHours => Jobs.Sum(job => job.FinishHours ?? 0);

    /// <summary>The impact of a finding at a moment.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="place">What the finding is about.</param>
    /// <param name="machines">What the machines remember.</param>
    /// <remarks>
    /// A finding of a machine reaches that machine, one of an air handler the zones it serves, one of a zone that zone. That a job there is at
    /// risk does not prove that this finding is why.
    /// </remarks>
    public static FindingImpact Of(Cell cell, FindingPlace place, IReadOnlyList<MachineState> machines)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(machines);
        var zones = cell.Zones.Where(z => place.Zone is { } zone ? z.Id == zone : place.AirHandler is { } unit && z.AirHandlers.Contains(unit))
            .Select(z => z.Id).ToHashSet(StringComparer.Ordinal);
        var reached = machines.Where(m => place.Machine is { } own ? m.Machine == own : cell.FindMachine(m.Machine) is { } at && zones.Contains(at.Zone)).ToList();
        var loaded = reached.Where(m => m.Job is not null).ToList();
        var unknown = loaded.Where(m => m.Outlook is null or { Level: Level.NotKnown }).Select(m => m.Machine).ToList();
        var jobs = loaded.Where(m => m.Outlook?.Level is Level.Watch or Level.MeasureFirst or Level.Hold)
            .Select(m => AtRisk(m.Job!, m.Outlook!)).ToList();
        var where = place.Machine ?? (zones.Count > 0 ? $"zone {string.Join(", ", zones.Order(StringComparer.Ordinal))}" : "the cell");
        return new FindingImpact(jobs, loaded.Count, unknown, Sentence(where, loaded.Count, jobs, unknown));
    }

    private static JobAtRisk AtRisk(JobLoaded job, Outlook outlook) => new(
        outlook.Machine,
        job.Serial,
        job.Part,
        job.Operation,
        outlook.Worst?.Feature,
        outlook.Level,
        outlook.Worst?.Probability,
        outlook.CutDuration?.TotalHours,
        outlook.EarliestSafe is { } safe ? Math.Max(0, (safe - outlook.IssuedAt).TotalHours) : null);

    private static string Sentence(string where, int loaded, List<JobAtRisk> jobs, List<string> unknown)
    {
        var blind = unknown.Count > 0 ? $" Not known for {string.Join(", ", unknown)}." : "";
        if (loaded == 0) return $"No job is loaded in {where} now.";
        if (jobs.Count == 0) return unknown.Count == loaded ? $"Not known: no outlook of {where} can be told now." : $"None now: no finish cut in {where} is at risk.{blind}";
        var hours = jobs.Sum(job => job.FinishHours ?? 0);
        return Say($"{jobs.Count} of {loaded} {(loaded == 1 ? "job" : "jobs")} in {where} at risk, {hours:0.0} finish hours: ")
            + string.Join("; ", jobs.Select(One)) + "." + blind;
    }

    private static string One(JobAtRisk job)
    {
        var wait = job.Level is not Level.Hold ? "" : job.WaitHours switch
        {
            null => ", earliest start not known",
            < 0.05 => "",
            { } hours => Say($", safe in about {hours:0.0} h"),
        };
        return $"{job.Machine} {job.Part} {job.Serial} {job.Level.Word()}{(job.Feature is { } feature ? $" ({feature})" : "")}{wait}";
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
