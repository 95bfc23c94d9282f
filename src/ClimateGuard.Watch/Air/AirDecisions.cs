namespace ClimateGuard.Watch;

/// <summary>A finding was opened, got an answer, or was closed.</summary>
/// <param name="Time">When.</param>
/// <param name="Finding">The finding as it is now.</param>
public sealed record FindingTold(DateTimeOffset Time, FindingCase Finding) : Decision(Time);

/// <summary>The air of a zone left its band, or is back.</summary>
/// <param name="Time">When.</param>
/// <param name="Excursion">The excursion as it is now.</param>
public sealed record ExcursionTold(DateTimeOffset Time, ZoneExcursion Excursion) : Decision(Time);

/// <summary>A time in which the air of a zone was outside its band. Immutable.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Begin">When it left the band.</param>
/// <param name="End">When it came back, or null while it lasts.</param>
/// <param name="PeakKelvins">The farthest from the set point so far, with its sign.</param>
/// <param name="DegreeMinutes">Kelvins beyond the band times minutes so far.</param>
/// <param name="Jobs">The jobs that were on the machines of the zone meanwhile.</param>
public sealed record ZoneExcursion(
    string Zone, DateTimeOffset Begin, DateTimeOffset? End, double PeakKelvins, double DegreeMinutes, IReadOnlyList<TouchedJob> Jobs);

/// <summary>A job that was loaded while the air of its zone was outside its band.</summary>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Part">Part number.</param>
/// <param name="Operation">Operation, or empty.</param>
public sealed record TouchedJob(string Machine, string Serial, string Part, string Operation);
