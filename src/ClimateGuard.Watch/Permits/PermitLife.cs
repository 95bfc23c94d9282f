using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What becomes of a permit: used by the start of its cut, or taken back before it.</summary>
internal static class PermitLife
{
    /// <summary>A cut began or ended. Beginning uses the permit; without one it is recorded, never stopped.</summary>
    public static MachineState CutMoved(MachineState state, CutMoved cut, List<Decision> decisions)
    {
        if (!cut.Started)
        {
            return state with { Cut = null };
        }

        var permit = state.Permits.Newest;
        var uses = permit is not null && permit.HoldsAt(state.At) && permit.Serial == cut.Serial && permit.Operation == cut.Operation;
        var running = new RunningCut(cut.Serial, cut.Operation, state.At, uses ? permit!.Id : state.Cut?.PermitId);
        if (!uses)
        {
            // The next hole or group of a cut that runs on a permit needs no other.
            if (state.Cut is null)
            {
                decisions.Add(new CutWithoutPermit(state.At, state.Machine, cut.Serial, cut.Operation));
            }

            return state with { Cut = running };
        }

        var used = permit! with { Fate = PermitFate.Used };
        decisions.Add(new PermitChanged(state.At, used));
        return state with { Cut = running, Permits = state.Permits with { Newest = used } };
    }

    /// <summary>Takes a permit back when something happened after which it no longer holds.</summary>
    public static MachineState Revoked(MachineState state, List<Decision> decisions)
    {
        if (state.Permits.Newest is not { } permit || !permit.HoldsAt(state.At) || Revocations.Because(permit, state, state.Timing.Shown) is not { } because)
        {
            return state;
        }

        var revoked = permit with { Fate = PermitFate.Revoked, RevokedBecause = because };
        decisions.Add(new PermitChanged(state.At, revoked));
        return state with { Permits = state.Permits with { Newest = revoked } };
    }
}
