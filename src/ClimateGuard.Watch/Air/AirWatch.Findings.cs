using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>From what was seen to what is told.</summary>
public sealed partial class AirWatch
{
    private static readonly TimeSpan BeforeOnset = TimeSpan.FromMinutes(140);

    private void Settle(UnitWatch unit, Func<FaultCause, bool> judgedNow, DateTimeOffset end, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        var answers = book.AnswersFor(unit.Handler.Id, end);
        unit.Rank(book.Priors, answers);
        var judged = unit.Ranked.Where(f => judgedNow(f.Assessment.Cause)).ToList();
        var standing = book.Standing.Where(f => f.Place.AirHandler == unit.Handler.Id).ToDictionary(f => f.Place);
        foreach (var seen in judged)
        {
            var stands = seen.Flagged || standing.ContainsKey(FindingPlace.Of(seen.Assessment)) ? unit.Stands(seen, window, end, book.Priors, answers) : 0;
            if (book.Take(seen, stands, end) is { } told) Tell(told, unit, end, machines, decisions);
        }

        var unseen = standing.Keys.Except(judged.Select(f => FindingPlace.Of(f.Assessment)))
            .Where(place => Catalogue.Find(place.Cause) is { } cause && judgedNow(cause));
        foreach (var place in unseen)
        {
            if (book.Unseen(place, end) is { } over) Tell(over, unit, end, machines, decisions);
        }
    }

    private void Tell(FindingCase told, UnitWatch? unit, DateTimeOffset moment, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        if (told.State != FindingState.Closed)
        {
            told = told with { MovedFirst = told.MovedFirst.Count == 0 && unit is not null ? MovedFirst(told, unit, moment) : told.MovedFirst };
            book.Renew(told);
            told = WithImpact(told, machines);
        }

        decisions.Add(new FindingTold(moment, told));
    }

    /// <summary>What is known now, with what each finding puts at risk as the machines stand.</summary>
    /// <param name="machines">What the machines remember.</param>
    internal AirSnapshot SnapshotFor(IReadOnlyList<MachineState> machines) =>
        Snapshot.Findings.Count == 0 ? Snapshot : Snapshot with { Findings = [.. Snapshot.Findings.Select(finding => WithImpact(finding, machines))] };

    // The usual course of a signal is that of the two hours before the signs began, not that of the night.
    private IReadOnlyList<SignalOnset> MovedFirst(FindingCase told, UnitWatch unit, DateTimeOffset moment)
    {
        var from = (told.Onset ?? told.OpenedAt) - BeforeOnset;
        var minutes = (int)Math.Clamp((moment - from).TotalMinutes, 0, window.Minutes);
        return window.Before(moment, minutes) is { } frame ? unit.MovedFirstIn(frame) : [];
    }

    private FindingCase WithImpact(FindingCase finding, IReadOnlyList<MachineState> machines) =>
        finding with { Impact = FindingImpact.Of(cell, finding.Place, machines) };

    private void Take(FindingOutcome outcome, DateTimeOffset moment, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        if (book.Find(outcome.Finding) is not { } finding)
        {
            decisions.Add(new AlertRaised(moment, new Alert(
                $"unknown-finding/{outcome.Finding}",
                null,
                "unknown finding",
                $"{outcome.By} said what was found for {outcome.Finding}, but no such finding stands. It is in the ledger and changed nothing.",
                "Look up the id among the findings that stand.",
                Cleared: false)));
            return;
        }

        var told = outcome.Closes
            ? book.Close(finding, moment, outcome.By, outcome.Cause, outcome.FixedBy)
            : book.Answer(finding, new GivenAnswer(moment, outcome.Cause ?? finding.Place.Cause, outcome.Seen, outcome.By));
        var unit = Array.Find(units, unit => unit.Handler.Id == finding.Place.AirHandler);
        unit?.Rank(book.Priors, book.AnswersFor(unit.Handler.Id, moment));
        if (unit?.Ranked.FirstOrDefault(f => FindingPlace.Of(f.Assessment) == finding.Place) is { } now && !outcome.Closes)
        {
            told = told with { Probability = now.Probability };
        }

        Tell(told, unit, moment, machines, decisions);
        RenewProbabilities(unit);
        Snapshot = SnapshotAt(Snapshot.JudgedAt);
    }

    // An answer at one finding moves the others of its air handler too.
    private void RenewProbabilities(UnitWatch? unit)
    {
        foreach (var seen in unit?.Ranked ?? [])
        {
            if (book.Standing.FirstOrDefault(f => f.Place == FindingPlace.Of(seen.Assessment)) is { } standing)
                book.Renew(standing with { Probability = seen.Probability });
        }
    }
}
