namespace ClimateGuard.Enclosure;

/// <summary>How the model runs freely over days it has not seen: from their begin on measured inputs alone, never corrected.</summary>
/// <param name="Days">How many days.</param>
/// <param name="InControlKelvins">Root mean square error while the air was in control, K; NaN when it never was.</param>
/// <param name="OtherwiseKelvins">The same in all other regimes, K.</param>
public sealed record RoomValidation(int Days, double InControlKelvins, double OtherwiseKelvins)
{
    /// <summary>The most allowed in control, K.</summary>
    public const double MostInControl = 0.15;

    /// <summary>The most allowed in excursions, K.</summary>
    public const double MostOtherwise = 0.3;

    /// <summary>Whether the model may be used: seen on at least one day, and no error too great.</summary>
    public bool Holds => Days > 0 && !(InControlKelvins > MostInControl) && !(OtherwiseKelvins > MostOtherwise)
        && !(double.IsNaN(InControlKelvins) && double.IsNaN(OtherwiseKelvins));

    /// <summary>Runs a room over the last days of a record; before each it is led by the filter, which alone knows the mass.</summary>
    internal static RoomValidation Of(RoomModel room, double airNoise, RoomRecord record, int firstUnseen)
    {
        double controlled = 0, other = 0;
        int controlledSteps = 0, otherSteps = 0, days = 0;
        for (var from = firstUnseen; from + record.StepsPerDay <= record.Count; from += record.StepsPerDay)
        {
            if (Led(room, airNoise, record, from) is not { } begin) continue;
            days++;
            var (air, mass) = begin;
            for (var i = from; i < from + record.StepsPerDay; i++)
            {
                var inputs = RoomInputs.Middle(record.Inputs[i - 1], record.Inputs[i]);
                if (!inputs.Known) break;
                (air, mass) = new RoomTransition(room, inputs, record.Step.TotalSeconds).Step(air, mass, room.Drive(inputs).Watts);
                if (double.IsNaN(record.Air[i])) continue;
                var square = (air - record.Air[i]) * (air - record.Air[i]);
                if (record.Regimes[i] == Regime.InControl) (controlled, controlledSteps) = (controlled + square, controlledSteps + 1);
                else (other, otherSteps) = (other + square, otherSteps + 1);
            }
        }

        return new RoomValidation(days, Root(controlled, controlledSteps), Root(other, otherSteps));
    }

    private static (double Air, double Mass)? Led(RoomModel room, double airNoise, RoomRecord record, int until)
    {
        var filter = new RoomFilter(room, airNoise, record.Step);
        for (var i = Math.Max(0, until - (3 * record.StepsPerDay)); i < until; i++) filter.Step(record.Air[i], record.Inputs[i], out _, out _);
        return filter.Runs ? (filter.Air, filter.Mass) : null;
    }

    private static double Root(double squares, int steps) => steps == 0 ? double.NaN : Math.Sqrt(squares / steps);
}
