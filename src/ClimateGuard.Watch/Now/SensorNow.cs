using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What one sensor said last, and how far that can be used at a moment.</summary>
internal sealed class SensorNow(Sensor sensor, int index, SensorTrust trust, SensorNow? before = null)
{
    private readonly CalibrationHistory calibrations = new(sensor);

    // Most sensors of a large cell say nothing between two snapshots; the last one stands until something came or it grew too old.
    private SensorSnapshot? shown;

    // What goes with the period, which hardly ever changes.
    private TimeSpan? reckonedWith;
    private TimeSpan invalidAge;
    private TimeSpan lateAge;

    public Sensor Sensor { get; } = sensor;

    /// <summary>What is wrong with it, worst first.</summary>
    public IReadOnlyList<SensorCondition> Conditions => trust.ConditionsOf(index);

    /// <summary>Counts since the start.</summary>
    public SensorCounts Counts => trust.CountsOf(index);

    /// <summary>Standard uncertainty of its last reading in use.</summary>
    public double Uncertainty => LastTime is { } last ? calibrations.UncertaintyAt(last.ToUnixTimeMilliseconds()) : Sensor.Uncertainty;

    /// <summary>The physical sensor behind its last reading, or null when not stated.</summary>
    public string? Instance => LastTime is { } last ? calibrations.At(last.ToUnixTimeMilliseconds())?.Instance : null;

    /// <summary>Whether it has a vote on the air of its zone while others have one.</summary>
    public bool HasVote
    {
        get
        {
            foreach (var condition in trust.ConditionsOf(index))
            {
                if (condition.HasNoVote)
                {
                    return false;
                }
            }

            return true;
        }
    }

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
            LastSetAsideTime = reading.Time;
            return false;
        }

        if (LastTime is { } last && reading.Time <= last)
        {
            return false;
        }

        LastTime = reading.Time;
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
        var condition = Conditions is [var worst, ..] ? worst.Cause : TrustReason.None;
        if (shown is null || shown.State != state || shown.Condition != condition || shown.Counts != Counts || state == SensorState.Invalid)
        {
            // Of a silent sensor the text counts minutes, so it is made anew.
            shown = new SensorSnapshot(Sensor, LastTime, LastValue, state, BecauseAt(now))
            {
                Condition = condition,
                Instance = Instance,
                Uncertainty = Uncertainty,
                Counts = Counts,
            };
        }

        return shown;
    }

    public SensorState StateAt(DateTimeOffset now)
    {
        if (IsSetAside)
        {
            return SensorState.Quarantined;
        }

        if (LastTime is not { } last)
        {
            return LastSetAsideTime is null ? SensorState.Silent : SensorState.Quarantined;
        }

        var age = now - last;
        var period = trust.PeriodOf(index);
        if (period != reckonedWith)
        {
            (reckonedWith, invalidAge, lateAge) = (period, InvalidAge(period), period * 3);
        }

        if (age > invalidAge)
        {
            return LastSetAsideTime > last ? SensorState.Quarantined : SensorState.Invalid;
        }

        return age > lateAge ? SensorState.Late : SensorState.Fresh;
    }

    public bool UsableAt(DateTimeOffset now) => StateAt(now) is SensorState.Fresh or SensorState.Late;

    public string? BecauseAt(DateTimeOffset now) => StateAt(now) switch
    {
        SensorState.Silent => $"{Sensor.Id} has sent nothing yet",
        SensorState.Invalid => $"{Sensor.Id} is silent for {Words.Minutes(now - LastTime!.Value)}",
        SensorState.Quarantined => Conditions is [{ SetsAside: true } worst, ..] ? worst.Text : $"{Sensor.Id} is set aside: {Words.Of(LastSetAside)}",
        _ => Conditions is [var first, ..] ? first.Text : null,
    };

    private bool IsSetAside => Conditions is [{ Cause: TrustReason.Stuck or TrustReason.Swapped or TrustReason.ConflictingTwin }, ..];

    // Beyond this age an input counts as lost: ten periods, and no longer than the room, the coolant or the part may go unseen
    // (common practice, no source). A slow sensor is given two and a half of its own periods, one that reports changes its heartbeat.
    private TimeSpan InvalidAge(TimeSpan period)
    {
        if (Sensor.ReportsOnChange)
        {
            return Sensor.Heartbeat;
        }

        var most = Sensor.Place switch
        {
            SensorPlace.Coolant or SensorPlace.Dielectric => TimeSpan.FromMinutes(3),
            SensorPlace.Part => TimeSpan.FromMinutes(10),
            _ => TimeSpan.FromMinutes(5),
        };
        var tenPeriods = period * 10;
        var age = tenPeriods < most ? tenPeriods : most;
        var least = period * 2.5;
        return age > least ? age : least;
    }
}
