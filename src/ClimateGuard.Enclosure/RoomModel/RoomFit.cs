using ClimateGuard.Thermal;

namespace ClimateGuard.Enclosure;

/// <summary>
/// The room that foretells its own next steps best: prediction errors of the Kalman filter and the priors together, by Levenberg's and
/// Marquardt's damped Gauss-Newton.
/// </summary>
/// <remarks>
/// A place counts each parameter in middles of its prior, because heat balances are linear in the parameters, and where all grow together
/// nothing changes; priors are normal in the logarithms. Errors that hang together count as fewer: the data weigh as their effective sample size.
/// Owned by one thread.
/// </remarks>
internal sealed partial class RoomFit
{
    // Nobody knows the air of a zone better than this, however well a model happens to fit.
    private const double LeastKelvins = 0.005;
    private static readonly int Parameters = Enum.GetValues<RoomParameter>().Length;
    private static readonly double[] NoiseGrid = [1e-3, 1e-2, 0.1, 1, 10, 100, 1000];
    private readonly RoomRecord record;
    private readonly RoomPriors priors;
    private readonly int[] free;
    private readonly double[] errors;
    private double airNoise = 0.1;
    private double sigma = 1;
    private double weight = 1;

    public RoomFit(RoomRecord record, RoomPriors priors)
    {
        (this.record, this.priors) = (record, priors);
        free = [.. Enumerable.Range(0, Parameters).Where(p => !record.Missing.Contains((RoomParameter)p))];
        errors = new double[record.Count];
    }

    /// <summary>Standard deviation of the air's measurement that the errors suggest, K.</summary>
    public double Sigma => sigma;

    /// <summary>The noise of the air beside the model, in units of the measurement's variance.</summary>
    public double AirNoise => airNoise;

    /// <summary>How many independent errors the record is worth.</summary>
    public double EffectiveErrors { get; private set; }

    /// <summary>The fit, from a room to begin with; without one, from the priors under each noise of the air, and the best of these is kept.</summary>
    public RoomModel Run(RoomModel? begin = null)
    {
        var best = Coordinates(begin);
        if (begin is null)
        {
            var (least, noise) = (double.PositiveInfinity, airNoise);
            foreach (var tried in NoiseGrid)
            {
                airNoise = tried;
                var place = Coordinates(null);
                Balance(place);
                for (var pass = 0; pass < 2; pass++) Settle(place);
                var cost = MinusLog(RoomAt(place)) + PriorCost(place);
                if (cost < least) (least, noise, best) = (cost, tried, place);
            }

            airNoise = noise;
        }
        else
        {
            ChooseNoise(best);
            Balance(best);
        }

        for (var pass = 0; pass < 2; pass++) Settle(best);
        Weigh(best);
        return RoomAt(best);
    }

    /// <summary>The least objective with one parameter held, from a place near it; in units of −log likelihood.</summary>
    public double Least(double[] place, int held) => Descend(place, [.. free.Where(p => p != held)], 0.01);

    /// <summary>Where a room lies: each parameter in middles of its prior, the last in units of its deviation.</summary>
    public double[] Coordinates(RoomModel? room)
    {
        var place = new double[Parameters];
        for (var p = 0; p < Parameters; p++)
        {
            var prior = priors[(RoomParameter)p];
            var value = room is null || !free.Contains(p) ? prior.Middle : room[(RoomParameter)p];
            place[p] = p == (int)RoomParameter.Base ? value / prior.Factor : Math.Max(value / prior.Middle, 1e-3);
        }

        return place;
    }

    public RoomModel RoomAt(ReadOnlySpan<double> place)
    {
        var values = new double[Parameters];
        foreach (var p in free) values[p] = place[p] * UnitOf((RoomParameter)p);
        return new RoomModel(values);
    }

    /// <summary>What a place counts a parameter in.</summary>
    public double UnitOf(RoomParameter parameter) => parameter == RoomParameter.Base ? priors[parameter].Factor : priors[parameter].Middle;

    private double Residuals(double[] place, double[] residuals)
    {
        var spread = Filter(RoomAt(place), residuals);
        var scale = Math.Sqrt(weight) / sigma;
        double cost = weight * spread / 2;
        for (var i = 0; i < record.Count; i++)
        {
            residuals[i] *= scale;
            cost += residuals[i] * residuals[i] / 2;
        }

        for (var p = 0; p < Parameters; p++) residuals[record.Count + p] = FromPrior(place, p);
        return cost + PriorCost(place);
    }

    private double PriorCost(double[] place)
    {
        double cost = 0;
        for (var p = 0; p < Parameters; p++) cost += FromPrior(place, p) * FromPrior(place, p) / 2;
        return cost;
    }

    private double FromPrior(double[] place, int p)
    {
        if (!free.Contains(p)) return 0;
        var prior = priors[(RoomParameter)p];
        return p == (int)RoomParameter.Base ? place[p] - (prior.Middle / prior.Factor) : Math.Log(place[p]) / Math.Log(prior.Factor);
    }

    /// <summary>Standardised errors, 0 where a run begins; returns the sum of the logarithms of their variances.</summary>
    private double Filter(RoomModel room, Span<double> standardised)
    {
        var filter = new RoomFilter(room, airNoise, record.Step);
        var logs = 0.0;
        for (var i = 0; i < record.Count; i++)
        {
            filter.Step(record.Air[i], record.Inputs[i], out var innovation, out var variance);
            standardised[i] = double.IsNaN(innovation) ? 0 : innovation / Math.Sqrt(variance);
            if (!double.IsNaN(innovation)) logs += Math.Log(variance);
        }

        return logs;
    }

    private void Settle(double[] place)
    {
        Weigh(place);
        Descend(place, free, 1e-3);
    }

    // First what leads heat in and out, at the heat capacities thought of before: else these take up what does not balance.
    private void Balance(double[] place)
    {
        Weigh(place);
        Descend(place, [.. free.Where(p => p > (int)RoomParameter.AirToMass)], 0.1);
    }

    private void ChooseNoise(double[] place)
    {
        var (best, least) = (airNoise, double.PositiveInfinity);
        var room = RoomAt(place);
        foreach (var noise in NoiseGrid)
        {
            airNoise = noise;
            var cost = MinusLog(room);
            if (cost < least) (best, least) = (noise, cost);
        }

        airNoise = best;
    }

    // With the variance of the measurement at its best.
    private double MinusLog(RoomModel room)
    {
        var logs = Filter(room, errors);
        var (squares, count) = SumOfSquares();
        return weight * ((count * Math.Log(Math.Max(squares / Math.Max(1, count), 1e-12)) / 2) + (logs / 2));
    }

    private void Weigh(double[] place)
    {
        var logs = Filter(RoomAt(place), errors);
        var (squares, count) = SumOfSquares();
        var usual = Math.Exp(logs / Math.Max(1, count) / 2);
        sigma = Math.Max(Math.Sqrt(squares / Math.Max(1, count)), LeastKelvins / usual);
        EffectiveErrors = count == 0 ? 0 : ResidualCorrelation.EffectiveSampleSize(errors) * count / errors.Length;
        weight = count == 0 ? 1 : Math.Clamp(EffectiveErrors / count, 1e-3, 1);
    }

    private (double Squares, int Count) SumOfSquares()
    {
        double squares = 0;
        var count = 0;
        foreach (var error in errors)
        {
            squares += error * error;
            if (error != 0) count++;
        }

        return (squares, count);
    }
}
