namespace ClimateGuard.Worker.Pages.Words;

/// <summary>A probability as people count: so many in a hundred.</summary>
public static class FrequencyWords
{
    /// <summary>Such as <c>90 in 100</c>; never a flat 0 or 100, which would promise more than a forecast can.</summary>
    /// <param name="probability">In [0, 1]; anything else is <c>not known</c>.</param>
    public static string Of(double probability) => probability switch
    {
        >= 0 and < 0.005 => "fewer than 1 in 100",
        >= 0.995 and <= 1 => "more than 99 in 100",
        >= 0 and <= 1 => FormattableString.Invariant($"{Math.Round(probability * 100, MidpointRounding.AwayFromZero):0} in 100"),
        _ => "not known",
    };
}
