namespace ClimateGuard.Enclosure;

/// <summary>Thresholds of the air-handler performance assessment rules; starting values of the reports, from memory.</summary>
public sealed record AparLimits
{
    /// <summary>ε_t, in K.</summary>
    public double Temperature { get; init; } = 2.0;

    /// <summary>ε_f, share of outdoor air.</summary>
    public double Share { get; init; } = 0.3;

    /// <summary>ΔT_min between return and outdoor air for rules on the share, in K.</summary>
    public double LeastDifference { get; init; } = 5.6;

    /// <summary>ΔT_sf and ΔT_rf, rise over supply and return fan, in K.</summary>
    public double FanRise { get; init; } = 1.1;

    /// <summary>ε_hc, ε_cc and ε_d.</summary>
    public double Command { get; init; } = 0.02;

    /// <summary>(Q_oa/Q_sa)_min.</summary>
    public double LeastShare { get; init; } = 0.15;

    /// <summary>Command of the damper that is its least opening.</summary>
    public double LeastDamper { get; init; } = 0.15;

    /// <summary>T_co, change-over from mode 3 to 4, in °C.</summary>
    public double ChangeOver { get; init; } = 18.0;
}

/// <summary>The 28 rules of APAR for one moment; a rule that is true is a fault. Rule 28 (mode changes) needs time and is not among them.</summary>
/// <remarks>
/// House, Vaezi-Nejad, Whitcomb, ASHRAE Transactions 107(1), 2001; Schein, Bushby, NISTIR 6964. The inequalities are from memory. A rule with an
/// unknown signal is not true.
/// </remarks>
public static class Apar
{
    /// <summary>The mode by the commands.</summary>
    public static OperatingMode ModeOf(in AirHandlerSample s, AparLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        bool heat = s.Heating > limits.Command, cool = s.Cooling > limits.Command;
        bool least = s.Damper <= limits.LeastDamper + limits.Command || double.IsNaN(s.Damper), all = s.Damper >= 1 - limits.Command;
        return (heat, cool) switch
        {
            (true, false) when least => OperatingMode.Heating,
            (false, false) when !least => OperatingMode.FreeCooling,
            (false, true) when all => OperatingMode.MechanicalAllOutdoor,
            (false, true) when least => OperatingMode.MechanicalLeastOutdoor,
            _ => OperatingMode.Other,
        };
    }

    /// <summary>The numbers of the rules that are true.</summary>
    public static IReadOnlyList<int> True(in AirHandlerSample s, AparLimits limits, bool occupied = true)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var rules = new List<int>();
        switch (ModeOf(s, limits))
        {
            case OperatingMode.Heating: Heating(s, limits, rules); break;
            case OperatingMode.FreeCooling: FreeCooling(s, limits, rules); break;
            case OperatingMode.MechanicalAllOutdoor: AllOutdoor(s, limits, rules); break;
            case OperatingMode.MechanicalLeastOutdoor: LeastOutdoor(s, limits, rules); break;
            default: Other(s, limits, rules); break;
        }

        Add(rules, 25, occupied && Math.Abs(s.Supply - s.SupplySetPoint) > limits.Temperature);
        Add(rules, 26, s.Mixed < Math.Min(s.Return, s.Outdoor) - limits.Temperature);
        Add(rules, 27, s.Mixed > Math.Max(s.Return, s.Outdoor) + limits.Temperature);
        return rules;
    }

    private static void Heating(in AirHandlerSample s, AparLimits l, List<int> rules)
    {
        var full = Math.Abs(s.Heating - 1) <= l.Command;
        Add(rules, 1, s.Supply < s.Mixed + l.FanRise - l.Temperature);
        Add(rules, 2, Math.Abs(s.OutdoorShare(l.LeastDifference) - l.LeastShare) > l.Share);
        Add(rules, 3, full && s.SupplySetPoint - s.Supply >= l.Temperature);
        Add(rules, 4, full);
    }

    private static void FreeCooling(in AirHandlerSample s, AparLimits l, List<int> rules)
    {
        Add(rules, 5, s.Outdoor > s.SupplySetPoint - l.FanRise + l.Temperature);
        Add(rules, 6, s.Supply > s.Return - l.FanRise + l.Temperature);
        Add(rules, 7, Math.Abs(s.Supply - l.FanRise - s.Mixed) > l.Temperature);
    }

    private static void AllOutdoor(in AirHandlerSample s, AparLimits l, List<int> rules)
    {
        Add(rules, 8, s.Outdoor < s.SupplySetPoint - l.FanRise - l.Temperature);
        Add(rules, 9, s.Outdoor > l.ChangeOver + l.Temperature);
        Add(rules, 10, Math.Abs(s.Outdoor - s.Mixed) > l.Temperature);
        Cooling(s, l, rules, 11);
    }

    private static void LeastOutdoor(in AirHandlerSample s, AparLimits l, List<int> rules)
    {
        Add(rules, 15, s.Outdoor < l.ChangeOver - l.Temperature);
        Add(rules, 18, Math.Abs(s.OutdoorShare(l.LeastDifference) - l.LeastShare) > l.Share);
        var full = Math.Abs(s.Cooling - 1) <= l.Command;
        Add(rules, 16, s.Supply > s.Mixed + l.FanRise + l.Temperature);
        Add(rules, 17, s.Supply > s.Return - l.FanRise + l.Temperature);
        Add(rules, 19, full && s.Supply - s.SupplySetPoint >= l.Temperature);
        Add(rules, 20, full);
    }

    private static void Cooling(in AirHandlerSample s, AparLimits l, List<int> rules, int first)
    {
        var full = Math.Abs(s.Cooling - 1) <= l.Command;
        Add(rules, first, s.Supply > s.Mixed + l.FanRise + l.Temperature);
        Add(rules, first + 1, s.Supply > s.Return - l.FanRise + l.Temperature);
        Add(rules, first + 2, full && s.Supply - s.SupplySetPoint >= l.Temperature);
        Add(rules, first + 3, full);
    }

    private static void Other(in AirHandlerSample s, AparLimits l, List<int> rules)
    {
        bool heat = s.Heating > l.Command, cool = s.Cooling > l.Command, between = s.Damper > l.Command && s.Damper < 1 - l.Command;
        Add(rules, 21, heat && cool && between);
        Add(rules, 22, heat && cool);
        Add(rules, 23, heat && s.Damper > l.Command);
        Add(rules, 24, between && cool);
    }

    private static void Add(List<int> rules, int number, bool isTrue)
    {
        if (isTrue) rules.Add(number);
    }
}
