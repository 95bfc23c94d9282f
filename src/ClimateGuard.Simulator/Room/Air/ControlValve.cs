namespace ClimateGuard.Simulator;

/// <summary>A valve with its actuator: it takes a minute for its stroke, and it may stick, stay put or leak.</summary>
public sealed class ControlValve
{
    private const double StrokeSeconds = 60.0;
    private double rest;

    /// <summary>The command, 0 to 1.</summary>
    public double Command { get; internal set; }

    /// <summary>Where the stem is, 0 to 1.</summary>
    public double Position { get; private set; }

    /// <summary>Stiction: how far the command must move before the stem follows, as a share of the stroke; 0 is a free valve.</summary>
    public double Stiction { get; internal set; }

    /// <summary>The position it is stuck at, or null when it moves.</summary>
    public double? StuckAt { get; internal set; }

    /// <summary>What passes when it is closed, as a share of full flow.</summary>
    public double LeakShare { get; internal set; }

    /// <summary>What passes, as a share of full flow.</summary>
    public double FlowShare => LeakShare + ((1.0 - LeakShare) * Position);

    internal void Advance(double seconds)
    {
        if (StuckAt is { } stuck)
        {
            Position = rest = Math.Clamp(stuck, 0, 1);
            return;
        }

        // A sticky stem waits until the command has gone far enough, and then jumps to it.
        if (Math.Abs(Command - rest) >= Stiction) rest = Command;
        var most = seconds / StrokeSeconds;
        Position += Math.Clamp(rest - Position, -most, most);
    }
}
