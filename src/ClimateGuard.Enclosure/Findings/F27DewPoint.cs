namespace ClimateGuard.Enclosure;

/// <summary>F27: water may condense on a cold surface.</summary>
public static class F27DewPoint
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F27",
        Name = "dew point near a cold surface",
        Class = CauseClass.Other,
        Component = "humidity",
        Limits =
        [
            new("warnKelvin", 2.0, "common practice, no source"),
            new("fallenKelvin", 3.0, "common practice, no source: the drying has been lost although no surface is wet yet"),
            new("actKelvin", 0.5, "common practice, no source"),
        ],
        LeastData = "30 min of humidity and of a surface",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "drift of the humidity sensor: 3 % are 0.6 K of dew point",
        FirstCheck = new(
            "Wipe the coldest surface and look for water; measure the humidity beside the sensor.", "hand, hygrometer", "at the coldest surface", 6,
            "water stands on it"),
        Source = "dew point by the ASHRAE saturation formula (from memory, checked against its tables); margins are common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var margin = DewPointMargin.Of(known.Signals);
        if (margin is null)
        {
            yield return known.About(Cause, [], ["humidity or surface temperatures are not measured"]);
            yield break;
        }

        var blocks = RowMath.Blocks(margin, 30);
        var least = Robust.Quantile(blocks, 0.02);
        var limit = known.Limits.Of(Cause, "warnKelvin");
        double Least(ZoneSignals s) => DewPointMargin.Of(s) is { } own ? Robust.Quantile(RowMath.Blocks(own, 30), 0.02) : double.NaN;
        var usual = known.Usually("dewpoint", Least);
        known.Number("dewpoint", Least);
        var fallen = usual.Learned ? usual.Median - least : double.NaN;
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"the margin to the dew point is {fallen:0.0} K smaller than on other days (limit {known.Limits.Of(Cause, "fallenKelvin"):0.0} K)"), double.IsNaN(fallen) ? 0 : Math.Clamp(Weight.Of(fallen, known.Limits.Of(Cause, "fallenKelvin") + (2 * usual.Sigma)), 0, Coil.Share(known.Lead).Share < 0.85 ? 2 : 7), "dew point margin fell"),
            new(FormattableString.Invariant($"the coldest surface came within {least:0.0} K of the dew point (limit {limit:0.0} K)"), double.IsNaN(least) ? 0 : Math.Clamp(Weight.AtLimit + (4 * (limit - least)), usual.Learned ? 0 : Weight.Least, Weight.Most), "dew point margin")], [],
            least <= limit ? 30 * Array.FindIndex(blocks, b => b <= limit) : null);
    }
}
