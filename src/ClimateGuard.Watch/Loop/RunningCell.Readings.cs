using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How a running cell judges readings and takes them in.</summary>
public sealed partial class RunningCell
{
    internal void Judge(LoopBatch batch)
    {
        foreach (ref readonly var arrival in batch.Arrivals.Span)
        {
            if (!arrival.IsReading)
            {
                continue;
            }

            if (arrival.Cell is null || ReferenceEquals(arrival.Cell, cell))
            {
                batch.Add(trust.Judge(arrival));
            }
            else
            {
                JudgeEarlier(batch, arrival);
            }
        }

        unreadable += batch.Unreadable.Count;
    }

    private void TakeReadings(LoopBatch batch)
    {
        foreach (ref readonly var reading in batch.Judged.Span)
        {
            Take(reading);
        }
    }

    private void Take(in TrustedReading reading)
    {
        if (now.Take(reading) && doors[reading.Raw.Sensor])
        {
            MoveDoor(new DoorMoved(reading.Time, cell.Sensors[reading.Raw.Sensor].Id, Open: reading.Value > 0.5));
        }

        if (reading.Trust != Trust.Quarantined && WatchesAir)
        {
            air.Take(reading);
        }

        readings += reading.Trust == Trust.Quarantined ? 0 : 1;
        quarantined += reading.Trust == Trust.Quarantined ? 1 : 0;
    }

    private void MoveDoor(DoorMoved door)
    {
        if (door.Open)
        {
            openDoors.TryAdd(door.Sensor, door.Time);
        }
        else
        {
            openDoors.Remove(door.Sensor);
        }

        for (var i = 0; i < states.Length; i++)
        {
            states[i] = states[i] with { DoorOpenSince = DoorOpenSince };
            worthKeeping[i] = true;
        }
    }
}
