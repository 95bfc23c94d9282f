namespace ClimateGuard.Watch;

/// <summary>What another policy would have changed over the same history.</summary>
/// <remarks>
/// People cut, waited and measured as the policy of then told them; the other one is asked about that history, not about what they would have
/// done under it.
/// </remarks>
public sealed record PolicyComparison
{
    /// <summary>Answers and levels that differ, in order of time.</summary>
    public required IReadOnlyList<PolicyDifference> Differences { get; init; }

    /// <summary>How many answers were compared.</summary>
    public required int Answers { get; init; }

    /// <summary>The outcomes that a measurement decided, and whether each policy held then.</summary>
    public required IReadOnlyList<MeasuredOutcome> Outcomes { get; init; }

    /// <summary>The first history.</summary>
    public required HoldHistory Before { get; init; }

    /// <summary>The other one.</summary>
    public required HoldHistory After { get; init; }

    /// <summary>Compares.</summary>
    /// <param name="before">What the first policy said, in order of time.</param>
    /// <param name="after">What the other said, in order of time.</param>
    public static PolicyComparison Of(IReadOnlyList<ScoreFact> before, IReadOnlyList<ScoreFact> after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var (first, second) = (Read(before), Read(after));
        return new PolicyComparison
        {
            Differences = [.. AnswersOf(before, after).Concat(LevelsOf(before, after)).OrderBy(difference => difference.Time)],
            Answers = before.OfType<AnswerSaid>().Count(),
            Outcomes = OutcomesOf(before, after, first, second),
            Before = first,
            After = second,
        };
    }

    private static HoldHistory Read(IReadOnlyList<ScoreFact> facts)
    {
        var history = new HoldHistory();
        foreach (var fact in facts)
        {
            history.Take(fact);
        }

        return history;
    }

    private static IEnumerable<PolicyDifference> AnswersOf(IReadOnlyList<ScoreFact> before, IReadOnlyList<ScoreFact> after)
    {
        var others = after.OfType<AnswerSaid>().GroupBy(Key).ToDictionary(group => group.Key, group => group.First().Answer);
        return before.OfType<AnswerSaid>()
            .Select(answer => new PolicyDifference(answer.Time, answer.Machine, answer.Work.Serial, "answer", answer.Answer, others.GetValueOrDefault(Key(answer)) ?? "no answer"))
            .Where(difference => difference.From != difference.To);
    }

    private static (string, string, DateTimeOffset) Key(AnswerSaid answer) => (answer.Machine, answer.RequestId, answer.Time);

    private static IEnumerable<PolicyDifference> LevelsOf(IReadOnlyList<ScoreFact> before, IReadOnlyList<ScoreFact> after)
    {
        var all = before.OfType<LevelSaid>().Select(said => (Said: said, Other: false)).Concat(after.OfType<LevelSaid>().Select(said => (Said: said, Other: true)));
        var standing = new Dictionary<string, (string From, string To)>(StringComparer.Ordinal);
        foreach (var moment in all.GroupBy(one => (one.Said.Time, one.Said.Machine)).OrderBy(group => group.Key.Time))
        {
            var was = standing.GetValueOrDefault(moment.Key.Machine, ("", ""));
            var (from, to) = was;
            foreach (var (said, other) in moment)
            {
                (from, to) = other ? (from, said.Level) : (said.Level, to);
            }

            standing[moment.Key.Machine] = (from, to);
            if (from != to && (from, to) != was)
            {
                yield return new PolicyDifference(moment.Key.Time, moment.Key.Machine, moment.Last().Said.Work.Serial, "level", from, to);
            }
        }
    }

    // A policy that did not hold has no score of its own there: what the other run measured counts for both.
    private static List<MeasuredOutcome> OutcomesOf(IReadOnlyList<ScoreFact> before, IReadOnlyList<ScoreFact> after, HoldHistory first, HoldHistory second) =>
    [
        .. before.Concat(after).OfType<HoldJudged>().Where(judged => judged.Score.Verdict != HoldVerdict.Undecided)
            .GroupBy(judged => (judged.Machine, judged.Score.Serial, judged.Score.Operation, judged.Time)).Select(group => group.First())
            .OrderBy(judged => judged.Time)
            .Select(judged => new MeasuredOutcome(judged.Time, judged.Score, HeldAt(first, judged), HeldAt(second, judged))),
    ];

    private static bool HeldAt(HoldHistory history, HoldJudged judged) => history.Holds.Any(hold =>
        hold.Work == new WorkOnMachine(judged.Machine, judged.Score.Serial, judged.Score.Operation)
        && hold.Begin <= judged.Time && (hold.End is null || hold.End >= judged.Time));
}

/// <summary>An answer or a level that another policy would have changed.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number, or empty.</param>
/// <param name="What"><c>answer</c> or <c>level</c>.</param>
/// <param name="From">What the first policy said.</param>
/// <param name="To">What the other says.</param>
public sealed record PolicyDifference(DateTimeOffset Time, string Machine, string Serial, string What, string From, string To);

/// <summary>A measurement that decides, and whether each policy held the work then.</summary>
/// <param name="Time">When it was measured.</param>
/// <param name="Score">What it said.</param>
/// <param name="HeldBefore">The first policy held.</param>
/// <param name="HeldAfter">The other holds.</param>
public sealed record MeasuredOutcome(DateTimeOffset Time, HoldScore Score, bool HeldBefore, bool HeldAfter);
