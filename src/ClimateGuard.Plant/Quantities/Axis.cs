namespace ClimateGuard.Plant;

/// <summary>A linear axis of a machine.</summary>
public enum Axis
{
    /// <summary>The first horizontal axis.</summary>
    X,

    /// <summary>The second axis.</summary>
    Y,

    /// <summary>The axis along the spindle.</summary>
    Z,
}
