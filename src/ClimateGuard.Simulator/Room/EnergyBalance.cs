namespace ClimateGuard.Simulator;

/// <summary>The book of a room's energy: what came in, what went out, what is stored.</summary>
public sealed class EnergyBalance
{
    /// <summary>Energy that came in, in J.</summary>
    public double InJoules { get; private set; }

    /// <summary>Energy that went out, in J.</summary>
    public double OutJoules { get; private set; }

    /// <summary>Energy stored since the start, in J, from the temperatures alone.</summary>
    public double StoredJoules { get; internal set; }

    /// <summary>In minus out minus stored, as a share of what came in; 0 before anything came in.</summary>
    public double OpenShare => InJoules > 0 ? Math.Abs(InJoules - OutJoules - StoredJoules) / InJoules : 0;

    internal void Cross(double watts, double seconds)
    {
        if (watts >= 0) InJoules += watts * seconds;
        else OutJoules -= watts * seconds;
    }
}
