using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One way in which a running spindle grows and a resting one shrinks back.</summary>
public sealed class SpindleGrowth
{
    private readonly double fullMicrometres;
    private readonly LagNode warmth;

    /// <summary>A cold spindle.</summary>
    public SpindleGrowth(Axis axis, double fullMicrometres, TimeSpan timeConstant)
    {
        Axis = axis;
        this.fullMicrometres = fullMicrometres;
        warmth = new LagNode(timeConstant, 0);
    }

    /// <summary>The axis it moves.</summary>
    public Axis Axis { get; }

    /// <summary>What it has grown, in µm.</summary>
    public double Micrometres => fullMicrometres * warmth.Value;

    /// <summary>Lets a step pass at a load from 0 to 1.</summary>
    public void Advance(double load, double seconds) => warmth.Advance(load, seconds);
}
