using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>One air handler: what the last judgements saw, and their ranking. Owned by the loop.</summary>
internal sealed class UnitWatch(Cell cell, AirHandler handler, int mostDays)
{
    private const int LeastSound = 3;
    private WatchedUnit unit = new(cell, handler, mostDays);
    private IReadOnlyList<SeenNow> quick = [];
    private IReadOnlyList<SeenNow> slow = [];
    private IReadOnlyList<SeenNow> daily = [];

    public AirHandler Handler { get; } = handler;

    /// <summary>All causes, the likeliest first.</summary>
    public IReadOnlyList<Finding> Ranked { get; private set; } = [];

    public UnitSnapshot Snapshot => new(
        Handler.Id, unit.Days, Ranked, CauseRanking.NoneOfThese(Ranked), Ranked.Count > 0 ? NextCheck.Of(Ranked)[0] : null);

    /// <summary>Takes days as those that are usual: without those that had a fault, unless fewer than three others are known.</summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="hadFault">Whether a day had one.</param>
    public void Learn(IReadOnlyList<SignalFrame> days, Func<SignalFrame, bool> hadFault)
    {
        var sound = days.Where(day => !hadFault(day)).ToList();
        foreach (var day in sound.Count < LeastSound ? days : sound) unit.Learn(day);
    }

    /// <summary>Forgets what is usual, to learn it anew.</summary>
    public void Forget() => unit = new WatchedUnit(cell, Handler, mostDays);

    /// <summary>Looks for the causes that show within minutes.</summary>
    public void JudgeQuick(SignalFrame hour) => quick = unit.Judge(hour, LiveSpan.IsQuick);

    /// <summary>Looks for those that show within hours.</summary>
    public void JudgeLastDay(SignalFrame lastDay) =>
        slow = unit.Judge(lastDay, static cause => !LiveSpan.IsQuick(cause) && !LiveSpan.NeedsDays(cause));

    /// <summary>Looks for those that show over days, in a local day that is over, and then takes it as one of those that are usual.</summary>
    /// <param name="day">The day.</param>
    /// <param name="hadFault">A fault stood on it: it is no usual one, or a fault that stays would become so. It is taken all the same while few others are known.</param>
    public void JudgeDayThatIsOver(SignalFrame day, bool hadFault)
    {
        daily = unit.Judge(day, LiveSpan.NeedsDays);
        if (!hadFault || unit.Days < LeastSound) unit.Learn(day);
    }

    /// <summary>Ranks what was seen last, with what this site knows and the answers of checks.</summary>
    public void Rank(CausePriors priors, IReadOnlyList<CheckAnswer> answers)
    {
        var onsets = new Dictionary<Assessment, DateTimeOffset?>(ReferenceEqualityComparer.Instance);
        foreach (var seen in quick.Concat(slow).Concat(daily)) onsets[seen.Assessment] = seen.Onset;
        Ranked = NextCheck.After(
            [.. CauseRanking.Of([.. onsets.Keys], priors).Select(f => f with { Onset = onsets[f.Assessment] })], answers);
    }

    /// <summary>How likely a cause is by the last minutes alone; null when too few of them are known.</summary>
    /// <param name="seen">The finding by the whole window.</param>
    /// <param name="window">All minutes.</param>
    /// <param name="end">The end of the window.</param>
    /// <param name="priors">How likely each cause is to begin with.</param>
    /// <param name="answers">The answers of checks.</param>
    public double? Stands(Finding seen, MinuteWindow window, DateTimeOffset end, CausePriors priors, IReadOnlyList<CheckAnswer> answers)
    {
        var cause = seen.Assessment.Cause;
        var minutes = LiveSpan.StandsMinutes(cause);
        if (window.Before(end, minutes) is not { } last || last.KnownMinutes * 2 < minutes) return null;
        if (minutes >= LiveSpan.DayMinutes) return seen.Probability;
        var place = FindingPlace.Of(seen.Assessment);
        var now = unit.Judge(last, other => other.Id == cause.Id).FirstOrDefault(other => FindingPlace.Of(other.Assessment) == place)?.Assessment;
        if (now is null) return 0;
        var odds = priors.LogOdds(cause) + now.Evidence.Sum(e => e.LogLikelihoodRatio)
            + answers.Where(a => a.CauseId == cause.Id).Sum(a => NextCheck.Weight(a.Seen));
        return 1 / (1 + Math.Exp(-odds));
    }

    public IReadOnlyList<SignalOnset> MovedFirstIn(SignalFrame frame) => unit.MovedFirstIn(frame);
}
