namespace ClimateGuard.Thermal;

/// <summary>Splits the variance that a state gives to an effect by where it comes from; the shares add up to the whole.</summary>
internal static class StateShares
{
    /// <summary>The shares, each as a standard uncertainty in µm.</summary>
    /// <param name="layout">The meaning of the state.</param>
    /// <param name="state">The state.</param>
    /// <param name="temperatures">The gradient of the effect by temperatures.</param>
    /// <param name="drift">The gradient of the effect by what makes the drift.</param>
    public static IEnumerable<UncertaintyShare> Of(
        StateLayout layout, ThermalState state, ReadOnlySpan<double> temperatures, ReadOnlySpan<double> drift)
    {
        int[] sources =
        [
            StateLayout.AirOffset,
            StateLayout.CoolantOffset,
            StateLayout.LogTimeConstant,
            .. Enumerable.Range(0, layout.Modes.Count).Select(StateLayout.SensitivityError),
        ];
        var root = RootOf(state, sources);
        var byTemperatures = Explained(state, sources, root, temperatures);
        var byDrift = Explained(state, sources, root, drift);
        var shares = new double[sources.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = Square(byTemperatures[i] + byDrift[i]);
        }

        var whole = new double[state.Count];
        for (var i = 0; i < whole.Length; i++)
        {
            whole[i] = temperatures[i] + drift[i];
        }

        // Part, scale and drift with what their sources do not explain; where the two err together they share it by their size.
        var left = Math.Max(0, state.Variance(whole) - shares.Sum());
        var own = Math.Max(0, state.Variance(temperatures) - byTemperatures.Sum(Square));
        var other = Math.Max(0, state.Variance(drift) - byDrift.Sum(Square));
        var both = own + other > 0 ? left / (own + other) : 0;
        return
        [
            new("temperature of part and scale", Math.Sqrt(own * both)),
            new("drift since the datum was probed", Math.Sqrt(other * both)),
            new("offset shared by the air sensors", Math.Sqrt(shares[0])),
            new("offset of the coolant sensor", Math.Sqrt(shares[1])),
            new("time constant of the part", Math.Sqrt(shares[2])),
            new("sensitivity of the machine", Math.Sqrt(shares[3..].Sum())),
        ];
    }

    private static double[] RootOf(ThermalState state, int[] sources)
    {
        var covariance = new double[sources.Length * sources.Length];
        for (var i = 0; i < sources.Length; i++)
        {
            for (var k = 0; k < sources.Length; k++)
            {
                covariance[(i * sources.Length) + k] = state.Covariance[(sources[i] * state.Count) + sources[k]];
            }
        }

        return CovarianceRoot.Of(covariance, sources.Length);
    }

    /// <summary>The covariance of the effect with each source's own part, over the standard deviation of that part: L·y = cov.</summary>
    private static double[] Explained(ThermalState state, int[] sources, double[] root, ReadOnlySpan<double> gradient)
    {
        var explained = new double[sources.Length];
        for (var i = 0; i < sources.Length; i++)
        {
            var sum = 0.0;
            for (var k = 0; k < gradient.Length; k++)
            {
                sum += state.Covariance[(sources[i] * state.Count) + k] * gradient[k];
            }

            for (var k = 0; k < i; k++)
            {
                sum -= root[(i * sources.Length) + k] * explained[k];
            }

            var pivot = root[(i * sources.Length) + i];
            explained[i] = pivot > 0 ? sum / pivot : 0;
        }

        return explained;
    }

    private static double Square(double value) => value * value;
}
