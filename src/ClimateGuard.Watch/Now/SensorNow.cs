using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What one sensor said last, and how far that can be used at a moment.</summary>
internal sealed class SensorNow(Sensor sensor, SensorNow? before = null)
{
    // Beyond this age an input counts as lost: ten periods, and no longer than the room, the coolant or the part may go unseen
    // (common practice, no source). A slow or silent-when-steady sensor is given two and a half of its own periods.
    private readonly TimeSpan invalidAge = InvalidAge(sensor);

    // Most sensors of a large cell say nothing between two snapshots; the last one stands until something came or it grew too old.
    private SensorSnapshot? shown;

    public Sensor Sensor { get; } = sensor;

    public DateTimeOffset? LastTime { get; private set; } = before?.LastTime;

    public double LastValue { get; private set; } = before?.LastValue ?? double.NaN;

    public TrustReason LastSetAside { get; private set; } = before?.LastSetAside ?? TrustReason.None;

    public DateTimeOffset? LastSetAsideTime { get; private set; } = before?.LastSetAsideTime;

    /// <summary>Takes a judged reading; one older than the last is history only.</summary>
    /// <returns>Whether it is the newest.</returns>
    public bool Take(in TrustedReading reading)
    {
        shown = null;
        if (reading.Trust == Trust.Quarantined)
        {
            LastSetAside = reading.Reason;
            LastSetAsideTime = reading.Raw.Time;
            return false;
        }

        if (LastTime is { } last && reading.Raw.Time <= last)
        {
            return false;
        }

        LastTime = reading.Raw.Time;
        LastValue = reading.Value;
        return true;
    }

    /// <summary>The clock was set back: a stamp taken from the old clock must not make the present look like history.</summary>
    public void NotAfter(DateTimeOffset now)
    {
        LastTime = LastTime > now ? now : LastTime;
        shown = null;
    }

    /// <summary>What is shown of it.</summary>
    public SensorSnapshot SnapshotAt(DateTimeOffset now)
    {
        var state = StateAt(now);
        if (shown is null || shown.State != state || state == SensorState.Invalid)
        {
            // Of a silent sensor the text counts minutes, so it is made anew.
            shown = new SensorSnapshot(Sensor, LastTime, LastValue, state, BecauseAt(now));
        }

        return shown;
    }

    public SensorState StateAt(DateTimeOffset now)
    {
        if (LastTime is not { } last)
        {
            return LastSetAsideTime is null ? SensorState.Silent : SensorState.Quarantined;
        }

        var age = now - last;
        if (age > invalidAge)
        {
            return LastSetAsideTime > last ? SensorState.Quarantined : SensorState.Invalid;
        }

        return age > Sensor.Period * 3 ? SensorState.Late : SensorState.Fresh;
    }

    public bool UsableAt(DateTimeOffset now) => StateAt(now) is SensorState.Fresh or SensorState.Late;

    public string? BecauseAt(DateTimeOffset now) => StateAt(now) switch
    {
        SensorState.Silent => $"{Sensor.Id} has sent nothing yet",
        SensorState.Invalid => $"{Sensor.Id} is silent for {Words.Minutes(now - LastTime!.Value)}",
        SensorState.Quarantined => $"{Sensor.Id} is set aside: {Words.Of(LastSetAside)}",
        _ => null,
    };

    private static TimeSpan InvalidAge(Sensor sensor)
    {
        var most = sensor.Place switch
        {
            SensorPlace.Coolant or SensorPlace.Dielectric => TimeSpan.FromMinutes(3),
            SensorPlace.Part => TimeSpan.FromMinutes(10),
            _ => TimeSpan.FromMinutes(5),
        };
        var tenPeriods = sensor.Period * 10;
        var age = tenPeriods < most ? tenPeriods : most;
        var least = sensor.Period * 2.5;
        return sensor.ReportsOnChange ? TimeSpan.FromHours(1) : age > least ? age : least;
    }
}
