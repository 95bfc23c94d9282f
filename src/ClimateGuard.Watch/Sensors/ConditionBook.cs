namespace ClimateGuard.Watch;

/// <summary>Keeps what is wrong with each sensor, and tells a person once when it begins and once when it is over.</summary>
internal sealed class ConditionBook(SensorRecord[] records)
{
    private readonly List<AlertRaised> told = [];
    private readonly List<TrustReason> causes = [];

    /// <summary>Looks at every sensor.</summary>
    /// <param name="now">The minute since 1970 that has begun.</param>
    public void Update(int now)
    {
        var moment = DateTimeOffset.FromUnixTimeSeconds(now * 60L);
        foreach (var record in records)
        {
            Causes(record, moment.ToUnixTimeMilliseconds());
            if (causes.Count > 0 || record.Conditions.Count > 0)
            {
                End(record, moment);
                Begin(record, moment);
            }
        }
    }

    /// <summary>Sensors that left the plant file, or are described otherwise now: what was told of them is over.</summary>
    /// <param name="gone">The sensors.</param>
    /// <param name="now">The minute since 1970 that has begun.</param>
    public void Depart(IEnumerable<SensorRecord> gone, long now)
    {
        causes.Clear();
        foreach (var record in gone.Where(record => record.Conditions.Count > 0))
        {
            End(record, DateTimeOffset.FromUnixTimeSeconds(now * 60));
        }
    }

    /// <summary>What is to be told since the last time this was asked.</summary>
    public IReadOnlyList<AlertRaised> TakeAlerts()
    {
        if (told.Count == 0)
        {
            return [];
        }

        AlertRaised[] taken = [.. told];
        told.Clear();
        return taken;
    }

    // Worst first. What follows from a worse cause is not told beside it.
    private void Causes(SensorRecord record, long now)
    {
        causes.Clear();
        Add(record.Refusals.Told is not TrustReason.ClockOffset, record.Refusals.Told);
        Add(true, record.SetAsideBecause);
        if (causes.Count == 0)
        {
            Add(record.Level is { IsOutvoted: true }, TrustReason.Outvoted);
            Add(record.Level is { IsDrifting: true, IsOutvoted: false }, TrustReason.Drifting);
            Add(record.Lag is { IsSlow: true }, TrustReason.Slow);
            Add(record.Spikes.IsNoisy, TrustReason.Noisy);
        }

        Add(record.Stamps.Ahead != 0, TrustReason.ClockOffset);
        Add(record.Period.IsChanged, TrustReason.PeriodChanged);
        Add(record.IsSlowQuantity && record.Steps.IsCoarse, TrustReason.Quantised);
        Add(record.Calibrations.HasJustChanged(now), TrustReason.Recalibrated);
    }

    private void Add(bool holds, TrustReason cause)
    {
        if (holds && cause != TrustReason.None)
        {
            causes.Add(cause);
        }
    }

    private void End(SensorRecord record, DateTimeOffset moment)
    {
        for (var i = record.Conditions.Count - 1; i >= 0; i--)
        {
            var condition = record.Conditions[i];
            if (!causes.Contains(condition.Cause))
            {
                record.Conditions.RemoveAt(i);
                Tell(record, moment, condition.Cause, ConditionWords.Over(record.Sensor, condition), "Nothing to do.", cleared: true);
            }
        }
    }

    private void Begin(SensorRecord record, DateTimeOffset moment)
    {
        for (var i = 0; i < causes.Count; i++)
        {
            var cause = causes[i];
            if (record.Conditions.Exists(known => known.Cause == cause))
            {
                continue;
            }

            var condition = ConditionWords.Of(record, cause, moment);
            record.Conditions.Insert(Math.Min(i, record.Conditions.Count), condition);
            Tell(record, moment, cause, condition.Text, condition.Action, cleared: false);
        }
    }

    private void Tell(SensorRecord record, DateTimeOffset moment, TrustReason cause, string text, string action, bool cleared)
    {
        // A change that somebody made on purpose is shown, not told as an alarm.
        if (cause != TrustReason.Recalibrated)
        {
            told.Add(new AlertRaised(moment, new Alert(
                $"sensor/{record.Sensor.Id}/{ConditionWords.Name(cause)}", record.Sensor.Machine, ConditionWords.Name(cause), text, action, cleared)));
        }
    }
}
