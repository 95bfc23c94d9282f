using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What a machine's watch is told at one moment: the surroundings, and an event or a tick of the clock.</summary>
/// <param name="Time">The moment; never earlier than the state it is applied to, else that state's moment is taken.</param>
/// <param name="Climate">What is known of the surroundings.</param>
/// <param name="Event">An event of this machine, or null for a tick.</param>
/// <param name="AirAhead">How the air of its zone is expected to move; null when it is expected to stay.</param>
/// <param name="OnlyFollow">Temperatures are followed and what happened is taken in, but no outlook is made.</param>
public readonly record struct MachineMoment(DateTimeOffset Time, LocalClimate Climate, MachineEvent? Event = null, AirCourse? AirAhead = null, bool OnlyFollow = false);
