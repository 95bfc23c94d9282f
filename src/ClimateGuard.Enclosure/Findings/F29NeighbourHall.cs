namespace ClimateGuard.Enclosure;

/// <summary>F29: a neighbouring hall works through the partition.</summary>
public static class F29NeighbourHall
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F29",
        Name = "neighbouring hall through the partition",
        Class = CauseClass.Envelope,
        Component = "partition wall",
        Limits =
        [
            new("biasKelvin", 0.2, "common practice, no source"),
        ],
        LeastData = "a day with the hall moving by 3 K",
        OnAfter = TimeSpan.FromMinutes(1440),
        OffAfter = TimeSpan.FromMinutes(1440),
        Confounders = "the distribution of the supply air",
        FirstCheck = new(
            "Feel the partition and compare wall temperatures.", "surface thermometer", "at the partition", 8,
            "the wall is warmer than the room by more than 2 K"),
        Source = "the sensor at the wall leads and follows the hall (E.3, F29); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Hall is not { } hall || known.Signals.Air.Count < 3 || Robust.Range(RowMath.Blocks(hall, 60)) < 3)
        {
            yield return known.About(Cause, [], ["the hall is not measured or moved by less than 3 K, or the zone has fewer than three air sensors"]);
            yield break;
        }

        var moist = DewPointMargin.Risen(known);
        var (slope, wall) = (known.Number("wall", WallHeat.Slope), known.Usually("wall", WallHeat.Slope));
        var rise = wall is { Learned: true, Median: > 0.01 } && WallHeat.AllInControl(known) ? (slope / wall.Median) - 1 : double.NaN;
        double Bias(ZoneSignals s) => s.Air.Where(a => !(a.Sensor.HeightMetres >= 3)).Select(air => WallHeat.Bias(s, air.Sensor.Id)).DefaultIfEmpty(double.NaN).Max();
        var bias = known.Number("bias", Bias);
        var usual = known.Usually("bias", Bias);
        var limit = known.Limits.Of(Cause, "biasKelvin") + (usual.Learned ? Math.Max(0, usual.Median) : 0.2);
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"per kelvin to the hall the room takes {100 * rise:+0;-0} % heat against other days, with the dew point moved by {moist:+0.0;-0.0} K"), double.IsNaN(rise) || double.IsNaN(moist) ? 0 : WallHeat.Moist(moist, rise) ? -5 : Math.Max(0, Weight.Of(rise, 0.5)), "wall heat"),
            new(FormattableString.Invariant($"one side of the zone follows the hall by {bias:0.0} K more than the rest (limit {limit:0.0} K)"), Math.Max(-1, Weight.Of(bias, limit, 0.9)), "wall side")],
            ["the temperature of the partition is not measured"]);
    }
}
