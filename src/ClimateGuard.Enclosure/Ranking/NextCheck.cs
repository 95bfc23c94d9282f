namespace ClimateGuard.Enclosure;

/// <summary>A check worth making, and what it is worth.</summary>
/// <param name="Cause">The cause it tests.</param>
/// <param name="Check">The check.</param>
/// <param name="BitsExpected">How much it is expected to lessen the doubt, in bits.</param>
/// <param name="BitsPerMinute">The same for each minute it takes.</param>
public sealed record CheckWorth(FaultCause Cause, FirstCheck Check, double BitsExpected, double BitsPerMinute);

/// <summary>What the technician found at a check.</summary>
/// <param name="CauseId">F01 to F34.</param>
/// <param name="Seen">Whether what was expected of that cause was seen.</param>
public sealed record CheckAnswer(string CauseId, bool Seen);

/// <summary>Which check next: the most doubt taken away for each minute.</summary>
public static class NextCheck
{
    /// <summary>How often a check shows a cause that is there, and does not show one that is not (common practice, no source).</summary>
    public const double Reliability = 0.9;

    /// <summary>The log-likelihood ratio of an answer.</summary>
    public static double Weight(bool seen) => (seen ? 1 : -1) * Math.Log(Reliability / (1 - Reliability));

    /// <summary>The checks of the candidates, the best first.</summary>
    /// <param name="findings">The findings of one day and air handler.</param>
    public static IReadOnlyList<CheckWorth> Of(IReadOnlyList<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        var shares = Shares(findings);
        var worth = findings.Select((finding, index) =>
        {
            var cause = finding.Assessment.Cause;
            var bits = Gain(shares, index);
            return new CheckWorth(cause, cause.FirstCheck, bits, bits / cause.FirstCheck.Minutes);
        });
        return [.. worth.OrderByDescending(w => w.BitsPerMinute)];
    }

    /// <summary>The findings after answers of the technician, put in order anew.</summary>
    /// <param name="findings">The findings.</param>
    /// <param name="answers">The answers.</param>
    public static IReadOnlyList<Finding> After(IReadOnlyList<Finding> findings, IReadOnlyList<CheckAnswer> answers)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(answers);
        return
        [
            .. findings.Select(finding =>
            {
                var odds = finding.LogOdds + answers.Where(a => a.CauseId == finding.Assessment.Cause.Id).Sum(a => Weight(a.Seen));
                return finding with { LogOdds = odds, Probability = 1 / (1 + Math.Exp(-odds)) };
            }).OrderByDescending(f => f.LogOdds),
        ];
    }

    // One cause or none of these: odds side by side, none as the unit.
    private static double[] Shares(IReadOnlyList<Finding> findings)
    {
        var odds = findings.Select(f => Math.Exp(Math.Clamp(f.LogOdds, -30, 30))).Append(1).ToArray();
        var all = odds.Sum();
        return [.. odds.Select(o => o / all)];
    }

    private static double Gain(double[] shares, int tested)
    {
        double[] yes = new double[shares.Length], no = new double[shares.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            var seen = i == tested ? Reliability : 1 - Reliability;
            (yes[i], no[i]) = (shares[i] * seen, shares[i] * (1 - seen));
        }

        double pYes = yes.Sum(), pNo = no.Sum();
        return Entropy(shares) - (pYes * Entropy([.. yes.Select(y => y / pYes)])) - (pNo * Entropy([.. no.Select(n => n / pNo)]));
    }

    private static double Entropy(double[] shares) => -shares.Sum(p => p > 0 ? p * Math.Log2(p) : 0);
}
