namespace ClimateGuard.Watch;

/// <summary>What the watch of a machine remembered when the last of the lines beside it were written.</summary>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Json">Its state, as the edge writes it; nothing the ledger looks into.</param>
public sealed record MachineCheckpoint(string Machine, string Json);

/// <summary>From where a worker goes on after a restart.</summary>
/// <param name="AppliedSeq">Up to this line everything that was asked has been decided; events after it were kept but not yet decided.</param>
/// <param name="Machines">The newest checkpoint of each machine.</param>
public sealed record LedgerCheckpoints(long AppliedSeq, IReadOnlyList<MachineCheckpoint> Machines);
