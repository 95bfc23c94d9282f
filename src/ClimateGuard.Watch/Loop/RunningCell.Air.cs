using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How a running cell watches its air.</summary>
public sealed partial class RunningCell
{
    private AirWatch air;

    /// <summary>The watch of the air.</summary>
    internal AirWatch Air => air;

    /// <summary>Goes on with the air as another running cell watched it, which is not used any more.</summary>
    internal void TakeAirOf(RunningCell earlier) => air = earlier.air;

    /// <summary>Takes a round in without stepping the machines: for a replay that goes on from what they remembered later.</summary>
    /// <remarks>The air is watched all the same, as it remembers more than it could hand over; what it tells was told before.</remarks>
    internal void Pass(LoopBatch batch, DateTimeOffset moment)
    {
        TakeReadings(batch);
        trust.TakeAlerts();
        var toldBefore = new List<Decision>();
        foreach (var happened in batch.Work.Select(work => work.Happened))
        {
            if (happened is DoorMoved door) MoveDoor(door);
            air.Take(happened, moment, states, toldBefore);
        }

        air.Pass(moment, states, toldBefore);
    }
}
