namespace ClimateGuard.Enclosure;

/// <summary>Thresholds of the fault conditions of ASHRAE Guideline 36; defaults from memory.</summary>
public sealed record Guideline36Limits
{
    /// <summary>ΔT_SF, in K.</summary>
    public double FanRise { get; init; } = 1.0;

    /// <summary>ΔT_min, in K.</summary>
    public double LeastDifference { get; init; } = 6.0;

    /// <summary>ε_SAT, in K.</summary>
    public double Supply { get; init; } = 1.0;

    /// <summary>ε_RAT, in K.</summary>
    public double Return { get; init; } = 1.0;

    /// <summary>ε_MAT, in K.</summary>
    public double Mixed { get; init; } = 3.0;

    /// <summary>ε_OAT of a sensor at the unit, in K.</summary>
    public double Outdoor { get; init; } = 1.0;

    /// <summary>ε_F, share of outdoor air.</summary>
    public double Share { get; init; } = 0.3;

    /// <summary>%OA_min, share of outdoor air.</summary>
    public double LeastShare { get; init; } = 0.15;

    /// <summary>FC8: √(ε_SAT² + ε_MAT²), in K.</summary>
    public double SupplyAgainstMixed => Math.Sqrt((Supply * Supply) + (Mixed * Mixed));

    /// <summary>FC10: √(ε_MAT² + ε_OAT²), in K.</summary>
    public double MixedAgainstOutdoor => Math.Sqrt((Mixed * Mixed) + (Outdoor * Outdoor));
}

/// <summary>The fault conditions 2, 3 and 5 to 13 of ASHRAE Guideline 36 (section 5.16.14, from memory) for rolling means of 5 min.</summary>
/// <remarks>FC1 needs the duct pressure, FC4 needs time, FC14 and FC15 need sensors between the coils. An unknown signal makes no condition true.</remarks>
public static class Guideline36
{
    /// <summary>The numbers of the conditions that are true.</summary>
    /// <param name="s">Means of 5 min.</param>
    /// <param name="limits">Thresholds.</param>
    /// <param name="mode">The operating state, which is that of <see cref="Apar.ModeOf"/>.</param>
    public static IReadOnlyList<int> True(in AirHandlerSample s, Guideline36Limits limits, OperatingMode mode)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var found = new List<int>();
        void Add(int number, bool isTrue)
        {
            if (isTrue) found.Add(number);
        }

        var l = limits;
        Add(2, s.Mixed + l.Mixed < Math.Min(s.Return - l.Return, s.Outdoor - l.Outdoor));
        Add(3, s.Mixed - l.Mixed > Math.Max(s.Return + l.Return, s.Outdoor + l.Outdoor));
        bool heating = mode is OperatingMode.Heating, free = mode is OperatingMode.FreeCooling, all = mode is OperatingMode.MechanicalAllOutdoor;
        bool least = mode is OperatingMode.MechanicalLeastOutdoor;
        Add(5, heating && s.Supply + l.Supply <= s.Mixed - l.Mixed + l.FanRise);
        Add(6, (heating || least) && Math.Abs(s.OutdoorShare(l.LeastDifference) - l.LeastShare) > l.Share);
        Add(7, heating && s.Supply < s.SupplySetPoint - l.Supply && s.Heating >= 0.99);
        Add(8, free && Math.Abs(s.Supply - l.FanRise - s.Mixed) > l.SupplyAgainstMixed);
        Add(9, free && s.Outdoor - l.Outdoor > s.SupplySetPoint - l.FanRise + l.Supply);
        Add(10, all && Math.Abs(s.Mixed - s.Outdoor) > l.MixedAgainstOutdoor);
        Add(11, all && s.Outdoor + l.Outdoor < s.SupplySetPoint - l.FanRise - l.Supply);
        Add(12, (free || all || least) && s.Supply - l.Supply - l.FanRise >= s.Mixed + l.Mixed);
        Add(13, (all || least) && s.Supply > s.SupplySetPoint + l.Supply && s.Cooling >= 0.99);
        return found;
    }
}
