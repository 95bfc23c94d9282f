using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The signals of one air handler by their role, and of the zones it serves; a role without a signal is null.</summary>
/// <remarks>
/// A role comes from <see cref="AirHandler.Points"/>; a temperature role left out there is taken from the one sensor of that place that names
/// the air handler (outdoor and chilled water: the one of the cell). Immutable.
/// </remarks>
public sealed class HandlerSignals
{
    private readonly Dictionary<string, double[]?> byRole = new(StringComparer.Ordinal);

    /// <summary>The signals of an air handler in a frame.</summary>
    public HandlerSignals(Cell cell, AirHandler handler, SignalFrame frame)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(handler);
        ArgumentNullException.ThrowIfNull(frame);
        Handler = handler;
        Frame = frame;
        foreach (var role in PointRoles.All) byRole[role] = frame.Row(PointRoles.SensorOf(cell, handler, role));
        FanOn = FanMask();
    }

    /// <summary>The air handler.</summary>
    public AirHandler Handler { get; }

    /// <summary>The frame.</summary>
    public SignalFrame Frame { get; }

    /// <summary>Supply air, °C.</summary>
    public double[]? Supply => byRole["supply"];

    /// <summary>Return air, °C.</summary>
    public double[]? Return => byRole["return"];

    /// <summary>Mixed air, °C.</summary>
    public double[]? Mixed => byRole["mixed"];

    /// <summary>Air that enters the coils: mixed air, else return air where the unit takes none from outdoors; °C.</summary>
    public double[]? Entering => Mixed ?? (Handler.OutdoorAir ? null : Return);

    /// <summary>Outdoor air, °C.</summary>
    public double[]? Outdoor => byRole["outdoor"];

    /// <summary>Command of the cooling valve, 0 to 1.</summary>
    public double[]? Cooling => byRole["coolingCommand"];

    /// <summary>Command of the heater or its valve, 0 to 1.</summary>
    public double[]? Heating => byRole["heatingCommand"];

    /// <summary>Command of the outdoor air damper, 0 to 1.</summary>
    public double[]? Damper => byRole["damperCommand"];

    /// <summary>Speed of the supply fan as a share of the fastest seen, or null.</summary>
    public double[]? FanSpeed => byRole["fanSpeed"];

    /// <summary>The signal of any other role, or null.</summary>
    public double[]? Of(string role) => byRole.GetValueOrDefault(role);

    /// <summary>Whether the fan ran in each minute; without a signal of it, it is taken to run.</summary>
    public bool[] FanOn { get; }

    /// <summary>Whether anything tells that the fan runs.</summary>
    public bool FanKnown => Of("fanStatus") is not null || FanSpeed is not null;

    private bool[] FanMask()
    {
        var on = new bool[Frame.Minutes];
        double[]? status = Of("fanStatus"), speed = FanSpeed;
        for (var minute = 0; minute < on.Length; minute++)
        {
            var stopped = (status is not null && status[minute] < 0.5) || (speed is not null && speed[minute] < 0.05);
            on[minute] = !stopped;
        }

        return on;
    }
}
