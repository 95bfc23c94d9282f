namespace ClimateGuard.Simulator;

/// <summary>The damper that mixes outdoor air into the return air, with an economiser that prefers outdoor air when it is cooler.</summary>
public sealed class OutdoorDamper
{
    private const double LeastShare = 0.15;
    private const double ChangeOverKelvin = 1.0;

    /// <summary>The command, 0 to 1.</summary>
    public double Command { get; private set; } = LeastShare;

    /// <summary>The position the linkage is stuck at, or null.</summary>
    public double? StuckAt { get; internal set; }

    /// <summary>The share of outdoor air in what it passes.</summary>
    public double OutdoorShare => Math.Clamp(StuckAt ?? Command, 0, 1);

    /// <summary>Sets the command and mixes; gives the mixed air, in °C.</summary>
    internal double Mix(double returnCelsius, double outdoorCelsius, double askedCelsius)
    {
        var gap = returnCelsius - outdoorCelsius;
        var free = gap > ChangeOverKelvin && askedCelsius < returnCelsius;
        Command = free ? Math.Clamp((returnCelsius - askedCelsius) / gap, LeastShare, 1.0) : LeastShare;
        return returnCelsius - (OutdoorShare * gap);
    }
}
