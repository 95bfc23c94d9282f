using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class ThermalModel
{
    /// <summary>A measurement farther off than so many standard deviations contradicts the model.</summary>
    public const double ContradictionLimit = 5;

    private const double FarthestLogTimeConstant = 1;

    /// <summary>Takes the part's temperature, measured by contact, into account: it is that of the surface.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="value">The reading.</param>
    /// <param name="uncertainty">Standard uncertainty, zero or more; zero is taken as exact.</param>
    /// <returns>How far it was from what was expected.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the uncertainty is negative.</exception>
    public MeasurementOutcome ObserveContact(ThermalState state, Celsius value, Kelvins uncertainty)
    {
        ArgumentNullException.ThrowIfNull(state);
        Span<double> weights = stackalloc double[state.Count];
        weights.Clear();
        var pair = NodesOf(state);
        weights[StateLayout.PartFirst] = pair.SurfaceFirstWeight;
        weights[StateLayout.PartSecond] = pair.SurfaceSecondWeight;
        return Observe(state, weights, value.Value - SurfaceTemperature(state).Value, uncertainty.Value);
    }

    /// <summary>Takes a reading of a sensor that stays on the part into account; it lags by <see cref="PartSensorLag"/>.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="value">The reading.</param>
    /// <param name="uncertainty">Standard uncertainty, zero or more; zero is taken as exact.</param>
    /// <returns>How far it was from what was expected.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the uncertainty is negative.</exception>
    public MeasurementOutcome ObserveSensorOnPart(ThermalState state, Celsius value, Kelvins uncertainty)
    {
        ArgumentNullException.ThrowIfNull(state);
        if (PartSensorLag == TimeSpan.Zero)
        {
            return ObserveContact(state, value, uncertainty);
        }

        Span<double> weights = stackalloc double[state.Count];
        weights.Clear();
        weights[StateLayout.PartSensor] = 1;
        return Observe(state, weights, value.Value - state[StateLayout.PartSensor], uncertainty.Value);
    }

    /// <summary>Takes the scale's temperature, measured by a sensor on it, into account.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="value">The reading.</param>
    /// <param name="uncertainty">Standard uncertainty, zero or more; zero is taken as exact.</param>
    /// <returns>How far it was from what was expected.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the uncertainty is negative.</exception>
    public MeasurementOutcome ObserveScale(ThermalState state, Celsius value, Kelvins uncertainty)
    {
        ArgumentNullException.ThrowIfNull(state);
        Span<double> weights = stackalloc double[state.Count];
        weights.Clear();
        weights[StateLayout.Scale] = 1;
        return Observe(state, weights, value.Value - state[StateLayout.Scale], uncertainty.Value);
    }

    /// <summary>
    /// Takes a span probe into account: a length on the part read by the scale is a thermometer of the mismatch,
    /// error = L·(αp·dTp − αs·dTs), with the parts of it that the control already corrects taken off.
    /// </summary>
    /// <param name="state">A state of this machine with a part.</param>
    /// <param name="lengthMillimetres">L, in mm, positive.</param>
    /// <param name="errorMicrometres">Reading minus the length at 20 °C, in µm.</param>
    /// <param name="uMicrometres">Standard uncertainty, in µm, zero or more; zero is taken as exact.</param>
    /// <returns>How far it was from what was expected.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, the length is not positive, or the uncertainty is negative.</exception>
    /// <exception cref="InvalidOperationException">Nothing is loaded.</exception>
    public MeasurementOutcome ObserveSpan(ThermalState state, double lengthMillimetres, double errorMicrometres, double uMicrometres)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(lengthMillimetres);
        var material = (Part ?? throw new InvalidOperationException("A span probe needs a part on the machine.")).Material;
        var metres = lengthMillimetres * 1e-3;
        var scaleGain = Machine.Scale.Compensated ? 0 : Machine.Scale.AlphaMicrometresPerMetreKelvin * metres;
        var partGain = Machine.PartCompensated ? 0 : material.AlphaMicrometresPerMetreKelvin * metres;
        Span<double> weights = stackalloc double[state.Count];
        weights.Clear();
        var pair = NodesOf(state);
        weights[StateLayout.PartFirst] = partGain * pair.FirstWeight;
        weights[StateLayout.PartSecond] = partGain * pair.SecondWeight;
        weights[StateLayout.Scale] = -scaleGain;
        var part = PartTemperature(state).Value - referenceCelsius;
        var expected = (partGain * part) - (scaleGain * (state[StateLayout.Scale] - referenceCelsius));
        return Observe(state, weights, errorMicrometres - expected, uMicrometres);
    }

    /// <summary>Takes a re-probe of the unmoved datum into account: delta = −(drift since it was probed).</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="deltaMicrometres">New minus old reading, in µm.</param>
    /// <param name="uMicrometres">Standard uncertainty, in µm, zero or more; zero is taken as exact.</param>
    /// <returns>How far it was from what was expected.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the uncertainty is negative.</exception>
    public MeasurementOutcome ObserveReprobe(ThermalState state, Axis axis, double deltaMicrometres, double uMicrometres)
    {
        ArgumentNullException.ThrowIfNull(state);
        Span<double> weights = stackalloc double[state.Count];
        var moves = Layout.Moves(axis);
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] = -moves[i];
        }

        weights[Layout.Reference(axis)] = 1;
        return Observe(state, weights, deltaMicrometres + DriftMicrometres(state, axis), uMicrometres);
    }

    private static MeasurementOutcome Observe(ThermalState state, ReadOnlySpan<double> weights, double innovation, double uncertainty)
    {
        RequireFinite(innovation, "the measurement");
        RequireUncertainty(uncertainty, "the measurement");
        var expected = state.Variance(weights);
        var noise = uncertainty * uncertainty;
        var outcome = new MeasurementOutcome(innovation, Math.Sqrt(expected + noise), Math.Sqrt(expected));
        if (expected == 0)
        {
            // Nothing is left to learn: the state is sure, and the outcome says whether the measurement agrees.
            return outcome;
        }

        // A contradiction means that the model was surer than it had reason to be: widen it until the measurement is three deviations away.
        var widen = outcome.Contradicts ? Math.Max(1, ((innovation * innovation / 9) - noise) / expected) : 1;
        Update(state, weights, innovation, noise, widen);
        return outcome;
    }

    /// <summary>
    /// The Kalman update by one scalar. Widening adds (w − 1)·g·gᵀ/s to P first, with g = P·h and s = hᵀ·g, so that hᵀ·P·h becomes w·s and
    /// what does not bear on the measurement stays. Both changes are multiples of g·gᵀ and are made as one: P stays symmetric and positive.
    /// </summary>
    private static void Update(ThermalState state, ReadOnlySpan<double> weights, double innovation, double noise, double widen)
    {
        var n = state.Count;
        var p = state.Covariance;
        Span<double> g = stackalloc double[n];
        var s = 0.0;
        for (var i = 0; i < n; i++)
        {
            var sum = 0.0;
            for (var k = 0; k < n; k++)
            {
                sum += p[(i * n) + k] * weights[k];
            }

            g[i] = sum;
            s += weights[i] * sum;
        }

        if (!(s > 0))
        {
            return;
        }

        var total = (widen * s) + noise;
        var change = ((widen - 1) / s) - (widen * widen / total);
        for (var i = 0; i < n; i++)
        {
            state.Mean[i] += widen * g[i] / total * innovation;
            for (var k = i; k < n; k++)
            {
                var value = p[(i * n) + k] + (change * g[i] * g[k]);
                value = i == k ? Math.Max(0, value) : value;
                p[(i * n) + k] = value;
                p[(k * n) + i] = value;
            }
        }

        KeepTimeConstantSensible(state);
    }

    /// <summary>
    /// Contradictory measurements can blame anything on the time constant; a part that follows three times slower or faster than its plant
    /// file says is another part, not a better estimate.
    /// </summary>
    private static void KeepTimeConstantSensible(ThermalState state) =>
        state.Mean[StateLayout.LogTimeConstant] = Math.Clamp(state.Mean[StateLayout.LogTimeConstant], -FarthestLogTimeConstant, FarthestLogTimeConstant);
}

/// <summary>How a measurement compared with what was expected.</summary>
/// <param name="Innovation">Measured minus expected, in the unit measured.</param>
/// <param name="StandardDeviation">Expected spread of that difference.</param>
/// <param name="PriorStandardDeviation">How uncertain the expectation was before.</param>
public readonly record struct MeasurementOutcome(double Innovation, double StandardDeviation, double PriorStandardDeviation)
{
    /// <summary>The measurement is farther off than chance allows.</summary>
    public bool Contradicts => Math.Abs(Innovation) > ThermalModel.ContradictionLimit * StandardDeviation;
}
