namespace ClimateGuard.Enclosure;

/// <summary>How well a parameter is known: the values at which the rest, fitted anew, still explains the data nearly as well.</summary>
/// <param name="Parameter">Which.</param>
/// <param name="Value">The value, in its unit.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end.</param>
public sealed record ProfileInterval(RoomParameter Parameter, double Value, double Low, double High)
{
    private const double MostShare = 0.5;

    // Half the 95 % quantile of χ² with one degree of freedom (likelihood ratio, Wilks 1938, from memory).
    private const double Drop = 1.9207;

    /// <summary>Whether the interval lies within ±50 % of the value.</summary>
    public bool Identified => Low >= Value * (1 - MostShare) && High <= Value * (1 + MostShare);

    internal static ProfileInterval Of(RoomFit fit, RoomModel room, RoomParameter parameter)
    {
        var place = fit.Coordinates(room);
        var least = fit.Least(place, (int)parameter);
        return new ProfileInterval(parameter, room[parameter], End(fit, place, parameter, least, -1), End(fit, place, parameter, least, 1));
    }

    // Steps of a growing factor until the fit is worse by the drop, then between the last two by a straight line in its root.
    private static double End(RoomFit fit, double[] best, RoomParameter parameter, double least, int side)
    {
        var p = (int)parameter;
        double[] place = [.. best];
        double step = 0.05, costBefore = 0;
        for (var k = 0; k < 9; k++)
        {
            var before = place[p];
            place = fit.Moved(place, p, before * (Math.Exp(side * step) - 1));
            var worse = fit.Least(place, p) - least;
            if (worse >= Drop)
            {
                double from = Math.Sqrt(Math.Max(0, costBefore)), to = Math.Sqrt(worse);
                var share = to > from ? (Math.Sqrt(Drop) - from) / (to - from) : 1;
                return fit.UnitOf(parameter) * before * Math.Pow(place[p] / before, share);
            }

            costBefore = worse;
            step *= 1.6;
        }

        return side < 0 ? 0 : double.PositiveInfinity;
    }
}
