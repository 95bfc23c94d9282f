using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class ThermalModel
{
    /// <summary>A state that someone states instead of observing it.</summary>
    /// <param name="given">What is stated.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature or drift is not finite, or an uncertainty is negative.</exception>
    public ThermalState StateOf(StatedTemperatures given)
    {
        ArgumentNullException.ThrowIfNull(given);
        var state = Settled(new Surroundings(given.Air?.Value ?? given.Scale.Value));
        LoadPart(state, given.Part, given.PartUncertainty);
        RequireFinite(given.Scale.Value, "the scale");
        RequireUncertainty(given.ScaleUncertainty.Value, "the scale");
        state.Reset(StateLayout.Scale, given.Scale.Value, Square(given.ScaleUncertainty.Value));
        ProbeDatum(state, [Axis.X, Axis.Y, Axis.Z]);
        SetDrift(state, Axis.X, given.DriftX, given.DriftUncertainty);
        SetDrift(state, Axis.Y, given.DriftY, given.DriftUncertainty);
        SetDrift(state, Axis.Z, given.DriftZ, given.DriftUncertainty);
        return state;
    }

    private void SetDrift(ThermalState state, Axis axis, double micrometres, double uMicrometres)
    {
        RequireFinite(micrometres, "drift");
        RequireUncertainty(uMicrometres, "drift");

        // On top of the clone, so that what the machine's structure leaves open now is in both and cancels: the drift is known to u and no worse.
        ProbeDatum(state, [axis]);
        var reference = Layout.Reference(axis);
        state.Mean[reference] -= micrometres;
        state.Covariance[(reference * state.Count) + reference] += Square(uMicrometres);
    }
}

/// <summary>Temperatures and drift as someone states them.</summary>
/// <remarks>Immutable. Drift in µm is tool minus work in machine axes, since the datum was probed.</remarks>
public sealed record StatedTemperatures
{
    /// <summary>The part.</summary>
    public required Celsius Part { get; init; }

    /// <summary>Standard uncertainty of the part.</summary>
    public required Kelvins PartUncertainty { get; init; }

    /// <summary>The scale.</summary>
    public required Celsius Scale { get; init; }

    /// <summary>Standard uncertainty of the scale.</summary>
    public required Kelvins ScaleUncertainty { get; init; }

    /// <summary>The local air, or null when it is not stated: then nothing moves.</summary>
    public Celsius? Air { get; init; }

    /// <summary>Drift in X, in µm.</summary>
    public double DriftX { get; init; }

    /// <summary>Drift in Y, in µm.</summary>
    public double DriftY { get; init; }

    /// <summary>Drift in Z, in µm.</summary>
    public double DriftZ { get; init; }

    /// <summary>Standard uncertainty of the drift in each axis, in µm.</summary>
    public double DriftUncertainty { get; init; }
}
