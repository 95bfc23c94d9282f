using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A sensor that was steady, and within the last minutes went elsewhere, alone if it has neighbours.</summary>
/// <param name="Record">The sensor.</param>
/// <param name="Says">What it says now, in °C.</param>
/// <param name="Before">What it said before, in °C.</param>
/// <param name="Departure">How far it is from its neighbours, in K; NaN without any.</param>
internal readonly record struct Suspect(SensorRecord Record, double Says, double Before, double Departure)
{
    private const int NowMinutes = 3;
    private const int BeforeEnds = 12;
    private const int BeforeMinutes = 10;
    private const int JustBefore = 6;
    private const int LongestGapMinutes = 90;
    private const double Steady = 0.3;

    /// <summary>Whether it has neighbours.</summary>
    public bool HasNeighbours => !double.IsNaN(Departure);

    /// <summary>Whether its air comes and goes by the air handler, so that a step of it says nothing by itself.</summary>
    public bool IsDriven => Record.Sensor.Place is SensorPlace.Supply or SensorPlace.Return or SensorPlace.Mixed or SensorPlace.ChilledWater;

    /// <summary>The sensor as a suspect, or null.</summary>
    /// <param name="record">The sensor.</param>
    /// <param name="minute">The last minute to look at.</param>
    /// <param name="least">The least step that counts, in K.</param>
    public static Suspect? Of(SensorRecord record, int minute, double least)
    {
        var departure = record.Level?.Departure ?? double.NaN;
        if (Math.Abs(departure) < least || record.Level is { MinutesAway: > BeforeEnds })
        {
            return null;
        }

        var series = record.Minutes!;
        var says = series.MeanBefore(minute, NowMinutes, NowMinutes);
        if (double.IsNaN(says))
        {
            return null;
        }

        var before = series.MeanBefore(minute - BeforeEnds, BeforeMinutes, LongestGapMinutes);
        var step = Math.Abs(says - before);
        return step >= least && WasSteady(series, minute, before, Steady * step) ? new Suspect(record, says, before, departure) : null;
    }

    private static bool WasSteady(MinuteMeans series, int minute, double before, double allowed)
    {
        for (var back = JustBefore; back < BeforeEnds + BeforeMinutes; back++)
        {
            if (Math.Abs(series.At(minute - back) - before) > allowed)
            {
                return false;
            }
        }

        return true;
    }
}
