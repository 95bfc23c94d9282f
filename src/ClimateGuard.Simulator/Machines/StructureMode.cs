using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One way in which the structure follows the air around it, and what that moves.</summary>
public sealed class StructureMode
{
    private readonly LagNode node;

    /// <summary>A mode that has settled at a temperature, in °C.</summary>
    public StructureMode(Axis axis, double micrometresPerKelvin, TimeSpan timeConstant, double startCelsius = 20.0)
    {
        Axis = axis;
        MicrometresPerKelvin = micrometresPerKelvin;
        node = new LagNode(timeConstant, startCelsius);
    }

    /// <summary>The axis it moves.</summary>
    public Axis Axis { get; }

    /// <summary>Its sensitivity, in µm/K.</summary>
    public double MicrometresPerKelvin { get; }

    /// <summary>The temperature of this part of the structure, in °C.</summary>
    public double Celsius => node.Value;

    /// <summary>What it moves the tool by, in µm, against a structure at 20 °C.</summary>
    public double Micrometres => MicrometresPerKelvin * (node.Value - 20.0);

    /// <summary>Lets a step pass in air of one temperature, in °C.</summary>
    public void Advance(double airCelsius, double seconds) => node.Advance(airCelsius, seconds);
}
