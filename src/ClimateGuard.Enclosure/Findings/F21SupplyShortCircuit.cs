namespace ClimateGuard.Enclosure;

/// <summary>F21: supply air goes straight back to the return.</summary>
public static class F21SupplyShortCircuit
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F21",
        Name = "supply short-circuits to return",
        Class = CauseClass.AirFlow,
        Component = "diffuser",
        Limits =
        [
            new("share", 0.4, "common practice, no source"),
        ],
        LeastData = "an hour with the supply 1.5 K colder than the room",
        OnAfter = TimeSpan.FromMinutes(60),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "the place of the return sensor",
        FirstCheck = new(
            "Follow the air from the diffuser with smoke.", "smoke tube", "under the diffusers", 10,
            "smoke goes to the return grille without crossing the room"),
        Source = "(T_room − T_return)/(T_room − T_supply) (E.3, F21); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals is not { Supply: { } supply, Return: { } back } || known.Zone?.Mean is not { } room) yield break;
        double Share(HandlerSignals s, double[] mean)
        {
            var shares = new double[s.Frame.Minutes];
            for (var m = 0; m < shares.Length; m++)
                shares[m] = s.FanOn[m] && mean[m] - s.Supply![m] >= 1.5 ? (mean[m] - s.Return![m]) / (mean[m] - s.Supply[m]) : double.NaN;
            return Robust.Quantile(RowMath.Blocks(shares, 60), 0.8);
        }

        var share = Share(known.Signals, room);
        if (double.IsNaN(share))
        {
            yield return known.About(Cause, [], ["the supply air was never 1.5 K colder than the room for an hour"]);
            yield break;
        }

        var limit = known.Limits.Of(Cause, "share");
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"{100 * Math.Max(0, share):0} % of the supply air seems to go straight to the return (limit {100 * limit:0} %)"), Weight.Of(share, limit), "short circuit")], []);
    }
}
