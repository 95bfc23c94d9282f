namespace ClimateGuard.Evidence;

/// <summary>The ladder: which rung the evidence of a case reaches, and what keeps it from the next.</summary>
/// <remarks>
/// 0 below 70 % of valid data or an unknown measurement. 1 when |x| + 1.645·u is below a fifth of the deviation and the model is validated. 3 from a
/// fifth to 70 % with right sign and pattern. 4 from 70 to 130 % with the signature and no competing recorded change. 5 is 4 with independent
/// evidence. A deviation that is not larger than its own uncertainty carries no more than 2, and so does an effect; but where the holes themselves bear the
/// signature of temperature, beyond what the machine makes without, the effect has its sign and place from there, and the verdict is 3 at most. An effect above 130 % is 3 as long as both
/// uncertainties together explain the surplus. Everything else is 2; so is, at most, a confounded case, one whose model is not validated, and one of
/// which only a range of the deviation is known. Limits: common practice, no source.
/// </remarks>
public static class VerdictLadder
{
    /// <summary>Below this share of the deviation temperature is no main cause.</summary>
    public const double LeastShare = 0.2;

    /// <summary>From this share of the deviation it is the main one.</summary>
    public const double MainShare = 0.7;

    /// <summary>Beyond this share the size does not fit.</summary>
    public const double MostShare = 1.3;

    // 95 % one-sided.
    private const double OneSided = 1.645;

    /// <summary>Judges a case.</summary>
    /// <param name="given">The case.</param>
    /// <returns>The rung with its words, reasons and caps.</returns>
    public static Verdict Judge(VerdictCase given)
    {
        ArgumentNullException.ThrowIfNull(given);
        var missing = given.Missing.ToList();
        if (given.KnownShare < VerdictCase.LeastKnownShare)
            missing.Add(FormattableString.Invariant($"{given.KnownShare:P0} of the window of the cut has valid data; 70 % are needed"));
        if (missing.Count > 0) return new Verdict(VerdictLevel.NotAssessable, VerdictWords.Of(VerdictLevel.NotAssessable, string.Join("; ", missing)), missing, []);
        var reasons = new List<string>();
        var level = Reached(given, reasons);
        var caps = Caps(given, level);
        if (caps.Count > 0) level = VerdictLevel.Possible;
        return new Verdict(level, VerdictWords.Of(level), reasons, caps);
    }

    private static VerdictLevel Reached(VerdictCase given, List<string> reasons)
    {
        if (given.DeviationMicrometres is not { } y || given.Share is not { } share)
        {
            reasons.Add(given.DeviationMicrometres is null ? "only a range of the deviation at 20 °C is known" : "there is no deviation");
            return VerdictLevel.Possible;
        }

        if (given.FromTrend is { } trend) reasons.Add(trend);
        var x = given.PredictedMicrometres;
        if (Math.Abs(x) + (OneSided * given.UPredicted) < LeastShare * Math.Abs(y))
        {
            reasons.Add(FormattableString.Invariant($"temperature predicts {x:0.0} ± {given.UPredicted:0.0} µm: with all of its uncertainty less than a fifth of {y:0.0} µm"));
            return VerdictLevel.Excluded;
        }

        reasons.Add(FormattableString.Invariant($"temperature predicts {x:0.0} ± {given.UPredicted:0.0} µm of {y:0.0} ± {given.UDeviation:0.0} µm: {share:P0}"));
        if (Against(given, x, y, share) is { } against)
        {
            reasons.Add(against);
            return VerdictLevel.Possible;
        }

        if (IsUncertain(given, x))
        {
            reasons.Add($"the predicted effect is not larger than its own uncertainty, but {given.Signature}");
            return VerdictLevel.Contributed;
        }

        if (share > MostShare)
        {
            reasons.Add("the size is larger than the deviation, but not by more than both uncertainties: something may have acted against it");
            return VerdictLevel.Contributed;
        }

        return share < MainShare ? VerdictLevel.Contributed : Main(given, reasons);
    }

    private static string? Against(VerdictCase given, double x, double y, double share) => true switch
    {
        _ when Math.Abs(y) <= 2 * given.UDeviation => "the deviation is not larger than what the measurement alone may make",
        _ when IsUncertain(given, x) && given.Signature is null => "the predicted effect is not larger than its own uncertainty",
        _ when given.HasSign && share < 0 => "the sign is wrong",
        _ when share < LeastShare => "the size is too small, and too uncertain to exclude it",
        _ when share > MostShare && IsTooLarge(given, x, y) => "the size is too large",
        _ when given.Pattern == PatternMatch.Mismatch => "the pattern is another one",
        _ => null,
    };

    private static bool IsUncertain(VerdictCase given, double x) => Math.Abs(x) <= OneSided * given.UPredicted;

    // Beyond the width of "main cause" by more than prediction and measurement may be off together; less is no contradiction.
    private static bool IsTooLarge(VerdictCase given, double x, double y) =>
        Math.Abs(x) - (MostShare * Math.Abs(y)) > OneSided * double.Hypot(given.UPredicted, MostShare * given.UDeviation);

    private static VerdictLevel Main(VerdictCase given, List<string> reasons)
    {
        if (given.Pattern == PatternMatch.NotChecked)
        {
            reasons.Add("the size fits; the pattern could not be looked at, as no hole vectors were measured");
            return VerdictLevel.Contributed;
        }

        if (given.CompetingChanges.Count > 0)
        {
            reasons.Add($"the size fits, but something else changed as well: {string.Join("; ", given.CompetingChanges)}");
            return VerdictLevel.Contributed;
        }

        reasons.Add(given.Pattern == PatternMatch.Matches ? "size, sign and pattern fit; no competing change is recorded" : "size and sign fit; no competing change is recorded");
        if (given.IndependentEvidence.Count == 0) return VerdictLevel.ProbablyMainCause;
        reasons.AddRange(given.IndependentEvidence);
        return VerdictLevel.Confirmed;
    }

    private static List<string> Caps(VerdictCase given, VerdictLevel level)
    {
        var caps = new List<string>();
        if (level == VerdictLevel.Possible) return caps;
        if (!given.ModelValidated) caps.Add($"the model is not validated: {given.NotValidBecause ?? "no check is recorded"}");
        if (level != VerdictLevel.Excluded && given.Confounder is { } confounder) caps.Add($"cannot be told from {confounder}");
        return caps;
    }
}
