namespace ClimateGuard.Watch;

/// <summary>Something the watch has decided. A closed set.</summary>
/// <param name="Time">When.</param>
public abstract record Decision(DateTimeOffset Time);

/// <summary>A machine's outlook is to be published.</summary>
/// <param name="Time">When.</param>
/// <param name="Outlook">The outlook.</param>
/// <param name="Changed">Level, feature, part or action changed; otherwise it is only renewed, which is not worth a ledger line.</param>
public sealed record OutlookIssued(DateTimeOffset Time, Outlook Outlook, bool Changed) : Decision(Time);

/// <summary>A request was answered.</summary>
/// <param name="Time">When.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Repeated">The same request came before and got the same answer again; not worth another ledger line.</param>
public sealed record RequestAnswered(DateTimeOffset Time, PermitAnswer Answer, bool Repeated) : Decision(Time);

/// <summary>A permit was used, or no longer holds.</summary>
/// <param name="Time">When.</param>
/// <param name="Permit">The permit as it is now.</param>
public sealed record PermitChanged(DateTimeOffset Time, Permit Permit) : Decision(Time);

/// <summary>A finish cut started without a permit: recorded and reported, never stopped.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
public sealed record CutWithoutPermit(DateTimeOffset Time, string Machine, string Serial, string Operation) : Decision(Time);

/// <summary>A measurement judged a hold.</summary>
/// <param name="Time">When.</param>
/// <param name="Score">What it said.</param>
public sealed record HoldScored(DateTimeOffset Time, HoldScore Score) : Decision(Time);

/// <summary>The probability from which the cell holds has moved.</summary>
/// <param name="Time">When.</param>
/// <param name="From">Before, in (0, 1).</param>
/// <param name="To">From now on.</param>
/// <param name="Because">Why, in plain words.</param>
public sealed record HoldThresholdMoved(DateTimeOffset Time, double From, double To, string Because) : Decision(Time);

/// <summary>An override was taken, waits for its second person, or was refused.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Override">The override, or null when it was refused.</param>
/// <param name="Refused">Why it was refused, or null.</param>
public sealed record OverrideTaken(DateTimeOffset Time, string Machine, ActiveOverride? Override, string? Refused) : Decision(Time);

/// <summary>Another version of the plant file came into force.</summary>
/// <param name="Time">When.</param>
/// <param name="Change">The new version with what differs.</param>
public sealed record PlantChanged(DateTimeOffset Time, PlantChange Change) : Decision(Time);

/// <summary>A person should act.</summary>
/// <param name="Time">When.</param>
/// <param name="Alert">What.</param>
public sealed record AlertRaised(DateTimeOffset Time, Alert Alert) : Decision(Time);

/// <summary>What a person should act on.</summary>
/// <param name="Id">Stays the same for the same cause.</param>
/// <param name="Machine">Id of the machine, or null for the whole cell.</param>
/// <param name="Cause">The cause in a few words, such as <c>hold</c>.</param>
/// <param name="Text">What happened, in plain words.</param>
/// <param name="Action">The one action.</param>
/// <param name="Cleared">Whether it is over.</param>
public sealed record Alert(string Id, string? Machine, string Cause, string Text, string Action, bool Cleared);
