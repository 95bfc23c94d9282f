using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>How far the tool has moved against the work, in µm, in machine axes.</summary>
public readonly record struct Displacement(double X, double Y, double Z)
{
    /// <summary>One axis.</summary>
    public double Along(Axis axis) => axis switch
    {
        Axis.X => X,
        Axis.Y => Y,
        _ => Z,
    };

    /// <summary>What has been added since.</summary>
    public static Displacement operator -(Displacement now, Displacement then) => new(now.X - then.X, now.Y - then.Y, now.Z - then.Z);
}
