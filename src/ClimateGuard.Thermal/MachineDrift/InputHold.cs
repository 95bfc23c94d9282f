namespace ClimateGuard.Thermal;

/// <summary>What the air is taken to do between two samples.</summary>
public enum InputHold
{
    /// <summary>It moves in a straight line from one sample to the next (first-order hold); right for a recorded signal.</summary>
    PiecewiseLinear,

    /// <summary>
    /// It keeps the earlier sample until the next (zero-order hold); right for a set-point or a logger that sends changes.
    /// </summary>
    PiecewiseConstant,
}
