using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What can be done about a finish cut: the situation and what is at hand.</summary>
/// <remarks>Immutable; the state in it is not changed.</remarks>
public sealed record ActionQuestion
{
    /// <summary>The model of the machine with its part.</summary>
    public required ThermalModel Model { get; init; }

    /// <summary>The state now.</summary>
    public required ThermalState State { get; init; }

    /// <summary>How the machine is held while something else is done, and the cut that waits.</summary>
    public required HoldAhead Hold { get; init; }

    /// <summary>Limits and guard factor.</summary>
    public required Policies Policies { get; init; }

    /// <summary>Temperature of the coolant the part could be rinsed with, or null when there is none.</summary>
    public Celsius? Coolant { get; init; }

    /// <summary>A fan is at hand.</summary>
    public bool FanAtHand { get; init; } = true;

    /// <summary>Load of the warm-up program, in (0, 1].</summary>
    public double WarmUpLoad { get; init; } = 1;

    /// <summary>Other machines that could take the part.</summary>
    public IReadOnlyList<OtherMachine> Others { get; init; } = [];

    /// <summary>Standard uncertainty of a span probe, in µm (common practice, no source).</summary>
    public double SpanUMicrometres { get; init; } = 1.4;
}

/// <summary>Another machine that could take the part.</summary>
/// <param name="Model">Its model with this part.</param>
/// <param name="State">Its state, with the part as it would arrive.</param>
/// <param name="Cut">The cut there.</param>
/// <param name="Takes">How long it takes to get there and be set up.</param>
public sealed record OtherMachine(ThermalModel Model, ThermalState State, CutAhead Cut, TimeSpan Takes);
