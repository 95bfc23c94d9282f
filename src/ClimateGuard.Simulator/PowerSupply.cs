namespace ClimateGuard.Simulator;

/// <summary>The mains of the cell: a dip stops machines, chillers and fans, and the fans come back last.</summary>
internal sealed class PowerSupply
{
    private DateTimeOffset backAt = DateTimeOffset.MinValue;
    private DateTimeOffset fansBackAt = DateTimeOffset.MinValue;

    public bool On { get; private set; } = true;

    public void Fail(DateTimeOffset at, TimeSpan duration, TimeSpan fanRestart) => (backAt, fansBackAt) = (at + duration, at + duration + fanRestart);

    /// <summary>Sets who has power now; whether the mains have just come back.</summary>
    public bool Feed(DateTimeOffset now, VirtualRoom room)
    {
        var was = On;
        On = now >= backAt;
        foreach (var unit in room.AirHandlers) unit.Fan.Powered = now >= fansBackAt;
        return On && !was;
    }
}
