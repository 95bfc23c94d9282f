namespace ClimateGuard.Enclosure;

/// <summary>One thing seen that speaks for a cause (positive) or against it (negative).</summary>
/// <param name="Text">What was seen, with its numbers.</param>
/// <param name="LogLikelihoodRatio">ln P(seen | cause) − ln P(seen | no such cause); a signal that is missing adds nothing.</param>
/// <param name="Symptom">The name of the thing seen; two causes that rest on the same thing share it, and the stronger one explains it.</param>
public sealed record Evidence(string Text, double LogLikelihoodRatio, string Symptom);

/// <summary>How much a measured value against a limit says.</summary>
public static class Weight
{
    /// <summary>The log-likelihood ratio of a value that just reaches its limit: it lifts an average cause to even odds.</summary>
    public const double AtLimit = 6.0;

    /// <summary>The most that one piece of evidence may say for a cause.</summary>
    public const double Most = 9.0;

    /// <summary>The most that one piece of evidence may say against a cause.</summary>
    public const double Least = -4.0;

    private const double NeutralShare = 0.6;

    /// <summary>Nothing at 60 % of the limit, even odds at the limit, more beyond, against the cause below.</summary>
    /// <param name="value">What was measured; NaN says nothing.</param>
    /// <param name="limit">The limit, above 0.</param>
    /// <param name="trust">From 0 to 1: how much of it to believe, such as less for a short time.</param>
    public static double Of(double value, double limit, double trust = 1) =>
        double.IsNaN(value) ? 0 : Math.Clamp(AtLimit * ((value / limit) - NeutralShare) / (1 - NeutralShare), Least, Most) * trust;
}
