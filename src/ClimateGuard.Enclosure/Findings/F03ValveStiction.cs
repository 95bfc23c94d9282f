namespace ClimateGuard.Enclosure;

/// <summary>F03: the valve sticks and then jumps.</summary>
public static class F03ValveStiction
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F03",
        Name = "cooling valve sticks",
        Class = CauseClass.Cooling,
        Component = "cooling coil valve",
        Limits =
        [
            new("stuckShare", 0.15, "common practice, no source: share of command moves of 5 % or more within ten minutes without response"),
        ],
        LeastData = "two hours of moving command",
        OnAfter = TimeSpan.FromMinutes(180),
        OffAfter = TimeSpan.FromMinutes(240),
        Confounders = "a slow actuator",
        FirstCheck = new(
            "Move the command by 5 % up and down and watch the stem.", "controller, eyes", "at the valve", 10,
            "the stem stays and then jumps"),
        Source = "command moves without response of the supply air (E.3, F03); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals is not { Cooling: not null, Supply: not null } || known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion) yield break;
        var response = StickAndJump.Of(known);
        if (!response.IsKnown)
        {
            yield return known.About(Cause, [], ["no other day shows how far the supply air follows the valve"]);
            yield break;
        }

        var share = response.Share;
        if (double.IsNaN(share))
        {
            yield return known.About(Cause, [], ["the cooling command moved for less than two hours, too little to see a valve stick"]);
            yield break;
        }

        var (limit, jumps) = (LimitOf(known, response), StickAndJump.Jumps(known, response.Reach));
        List<Evidence> evidence =
        [
            new(FormattableString.Invariant($"{100 * share:0} % of the moves of the command by 5 % or more got no response"), Weight.Of(share, limit), "moves without response"),
            new(FormattableString.Invariant($"the supply air jumped {jumps} times without a matching move"), jumps >= 3 ? 1.5 : -1, "supply jumps"),
        ];
        Coil.FlatAgainst(known, evidence);
        yield return known.About(Cause, evidence, []);
    }

    /// <summary>A loop swings by itself when its valve sticks, however it is tuned.</summary>
    internal static bool Shows(HandlerCase known) => StickAndJump.Of(known) is var response && response.Share >= LimitOf(known, response);

    private static double LimitOf(HandlerCase known, StickAndJump.Response response) =>
        Math.Max(known.Limits.Of(Cause, "stuckShare"), response.Usual.Days > 0 ? 2 * response.Usual.Median : 0);
}
