namespace ClimateGuard.Simulator;

/// <summary>What the shop does at a moment; it decides heat and light.</summary>
public enum ShopPhase
{
    /// <summary>Nobody is there.</summary>
    Off,

    /// <summary>The hour before the first shift: machines idle, lights on.</summary>
    WarmUp,

    /// <summary>A shift is on.</summary>
    Running,
}
