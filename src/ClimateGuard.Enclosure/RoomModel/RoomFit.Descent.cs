namespace ClimateGuard.Enclosure;

/// <summary>The way down: Levenberg and Marquardt.</summary>
internal sealed partial class RoomFit
{
    private const double Nudge = 1e-4;
    private const int MostRounds = 25;

    /// <summary>Where the others go, in the first order, when one parameter moves by so much from a place of least cost.</summary>
    public double[] Moved(double[] place, int parameter, double by)
    {
        int[] others = [.. free.Where(p => p != parameter)];
        double[] start = [.. place], next = [.. place];
        var slope = Slopes(start, [parameter])[0];
        next[parameter] += by;
        if (NormalEquations.Of(Slopes(start, others), slope).Solve(1e-10) is not { } step) return next;
        var share = Allowed(start, others, [.. step.Select(one => one * by)]);
        for (var j = 0; j < others.Length; j++) next[others[j]] -= share * by * step[j];
        return next;
    }

    private double Descend(double[] place, int[] moving, double enough)
    {
        var residuals = new double[record.Count + Parameters];
        var trial = new double[record.Count + Parameters];
        
        // Nearly Gauss and Newton from the begin: the valley in which all conductances grow together is too flat for more.
        var (cost, damping) = (Residuals(place, residuals), 1e-8);
        for (var round = 0; round < MostRounds; round++)
        {
            var before = cost;
            cost = Improve(place, moving, Slopes(place, moving), residuals, trial, cost, ref damping);
            if (before - cost < enough) break;
        }

        return cost;
    }

    private double[][] Slopes(double[] place, int[] moving)
    {
        // From both sides: the curvature of the stiff directions would drown the flat ones.
        var slopes = new double[moving.Length][];
        var below = new double[record.Count + Parameters];
        for (var j = 0; j < moving.Length; j++)
        {
            var slope = slopes[j] = new double[below.Length];
            var kept = place[moving[j]];
            var nudge = Nudge * Math.Max(Math.Abs(kept), Nudge);
            place[moving[j]] = kept + nudge;
            Residuals(place, slope);
            place[moving[j]] = kept - nudge;
            Residuals(place, below);
            place[moving[j]] = kept;
            for (var i = 0; i < slope.Length; i++) slope[i] = (slope[i] - below[i]) / (2 * nudge);
        }

        return slopes;
    }

    // Damping grows until a step helps; the step is kept within a factor of e.
    private double Improve(double[] place, int[] moving, double[][] jacobian, double[] residuals, double[] trial, double cost, ref double damping)
    {
        var normal = NormalEquations.Of(jacobian, residuals);
        for (var attempt = 0; attempt < 10; attempt++)
        {
            if (normal.Solve(damping) is { } step)
            {
                double[] next = [.. place];
                var share = Allowed(place, moving, step);
                for (var j = 0; j < moving.Length; j++) next[moving[j]] -= share * step[j];
                var found = Residuals(next, trial);
                if (found < cost)
                {
                    next.CopyTo(place, 0);
                    trial.CopyTo(residuals, 0);
                    damping = Math.Max(damping / 10, 1e-9);
                    return found;
                }
            }

            damping *= 10;
        }

        return cost;
    }

    // No parameter but the base may fall below a third or rise above three times itself in one step.
    private static double Allowed(double[] place, int[] moving, double[] step)
    {
        var share = 1.0;
        for (var j = 0; j < moving.Length; j++)
        {
            if (moving[j] == (int)RoomParameter.Base) continue;
            var most = (step[j] > 0 ? 2.0 / 3 : 2.0) * place[moving[j]];
            if (Math.Abs(step[j]) > most) share = Math.Min(share, most / Math.Abs(step[j]));
        }

        return share;
    }
}
