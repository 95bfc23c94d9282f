namespace ClimateGuard.Watch;

/// <summary>A person has taken the responsibility for one serial and operation.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="By">Who.</param>
/// <param name="SecondBy">The second person, needed for critical parts; null as long as nobody has confirmed.</param>
/// <param name="Reason">Why.</param>
/// <param name="Since">Since when.</param>
/// <param name="Until">Until when, at most the end of the shift.</param>
/// <param name="InForce">Whether it counts: for a critical part only with the second person.</param>
public sealed record ActiveOverride(
    string Serial, string Operation, string By, string? SecondBy, string Reason, DateTimeOffset Since, DateTimeOffset Until, bool InForce)
{
    /// <summary>Whether it counts for this work at this moment.</summary>
    /// <param name="serial">Serial number.</param>
    /// <param name="operation">Operation.</param>
    /// <param name="now">The moment.</param>
    public bool Covers(string serial, string operation, DateTimeOffset now) =>
        InForce && Serial == serial && Operation == operation && now < Until;
}
