using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What takes a permit back before its cut has started. After the start nothing does: a cut is never stopped.</summary>
internal static class Revocations
{
    /// <summary>A coolant that jumps by more than this since the permit was given has changed the part's surroundings.</summary>
    public const double CoolantJumpKelvins = 0.5;

    /// <summary>A door open for longer than this changes the room.</summary>
    public static readonly TimeSpan DoorOpen = TimeSpan.FromMinutes(3);

    /// <summary>Why the permit no longer holds, or null.</summary>
    public static string? Because(Permit permit, MachineState state, Level computed)
    {
        if (state.Job is not { } job || job.Serial != permit.Serial)
        {
            return "another part is on the machine";
        }

        if (computed == Level.NotKnown)
        {
            return "an input was lost";
        }

        if (state.Offset != permit.Offset)
        {
            return permit.Offset is null ? "an offset was set" : "the offset was changed or taken off";
        }

        if (permit.Offset is not null && computed == Level.MeasureFirst)
        {
            return "the offset no longer fits";
        }

        if (computed == Level.Hold)
        {
            return "the effect now exceeds the budget";
        }

        if (Math.Abs(state.Climate.CoolantCelsius - permit.CoolantCelsius) > CoolantJumpKelvins)
        {
            return $"the coolant jumped to {Words.Celsius(state.Climate.CoolantCelsius)}";
        }

        return state.DoorOpenSince is { } since && state.At - since > DoorOpen ? "a door is open for more than 3 min" : null;
    }
}
