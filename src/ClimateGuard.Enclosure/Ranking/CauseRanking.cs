namespace ClimateGuard.Enclosure;

/// <summary>Puts causes in order by the evidence for and against them; "none of these" is always among them.</summary>
/// <remarks>
/// Naive Bayes, each cause for itself: log odds = prior + sum of log-likelihood ratios (domain rule E.5). A symptom that a likelier cause already
/// explains counts for no other: otherwise one cold coil would make every cause of a cold coil likely.
/// </remarks>
public static class CauseRanking
{
    /// <summary>Findings, the likeliest first.</summary>
    /// <param name="assessments">What the rules said.</param>
    /// <param name="priors">How likely each cause is to begin with.</param>
    public static IReadOnlyList<Finding> Of(IReadOnlyList<Assessment> assessments, CausePriors priors)
    {
        ArgumentNullException.ThrowIfNull(assessments);
        ArgumentNullException.ThrowIfNull(priors);
        var open = assessments.Select(a => (Assessment: a, Odds: priors.LogOdds(a.Cause))).ToList();
        var explained = new HashSet<string>(StringComparer.Ordinal);
        var ranked = new List<Finding>(open.Count);
        while (open.Count > 0)
        {
            var best = open.MaxBy(entry => entry.Odds + Sum(entry.Assessment, explained));
            open.Remove(best);
            var odds = best.Odds + Sum(best.Assessment, explained);
            ranked.Add(new Finding { Assessment = best.Assessment, LogOdds = odds, Probability = 1 / (1 + Math.Exp(-odds)) });
            if (odds < 0) continue;
            foreach (var evidence in best.Assessment.Evidence.Where(e => e.LogLikelihoodRatio > 0))
                explained.Add(Key(best.Assessment, evidence));
        }

        return ranked;
    }

    /// <summary>How likely none of the causes is present.</summary>
    public static double NoneOfThese(IEnumerable<Finding> findings) =>
        findings.Aggregate(1.0, (share, finding) => share * (1 - finding.Probability));

    private static double Sum(Assessment assessment, HashSet<string> explained) =>
        assessment.Evidence.Sum(e => e.LogLikelihoodRatio > 0 && explained.Contains(Key(assessment, e)) ? 0 : e.LogLikelihoodRatio);

    private static string Key(Assessment assessment, Evidence evidence) => $"{assessment.AirHandler}|{assessment.Zone}|{evidence.Symptom}";
}
