namespace ClimateGuard.Enclosure;

/// <summary>What a record tells of a zone as a room. Immutable.</summary>
public sealed record RoomIdentification
{
    /// <summary>The shortest time with air and inputs.</summary>
    public static readonly TimeSpan Least = TimeSpan.FromDays(2);

    /// <summary>The likeliest room.</summary>
    public required RoomModel Room { get; init; }

    /// <summary>How well each parameter is known; parameters that nothing tells of are absent.</summary>
    public required IReadOnlyList<ProfileInterval> Intervals { get; init; }

    /// <summary>How it runs freely over unseen days.</summary>
    public required RoomValidation Validation { get; init; }

    /// <summary>Standard deviation of what the air does beside the model within a step, K.</summary>
    public required double ErrorKelvins { get; init; }

    /// <summary>What is not known, why, and what would tell; sentences for a person, empty when all is known.</summary>
    public required IReadOnlyList<string> Words { get; init; }

    /// <summary>Noise of the air in units of its measurement's variance, for a filter that follows it.</summary>
    internal double AirNoise { get; init; }

    /// <summary>Whether a parameter is known within ±50 %.</summary>
    public bool Knows(RoomParameter parameter) => Intervals.Any(interval => interval.Parameter == parameter && interval.Identified);

    /// <summary>Identifies a zone.</summary>
    /// <param name="record">The record, two days or more; set-backs, open doors, stopped fans and load steps in it say most.</param>
    /// <param name="priors">What is thought of it before.</param>
    /// <param name="unseenDays">Whole days at its end that are kept for validation; clipped to a third of the record.</param>
    /// <returns>The identification, or null with the reason when the record is too short.</returns>
    public static (RoomIdentification? Found, string? WhyNot) Of(RoomRecord record, RoomPriors priors, int unseenDays = 2)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(priors);
        var unseen = Math.Clamp(unseenDays, 0, record.Count / 3 / record.StepsPerDay) * record.StepsPerDay;
        var seen = record.Slice(0, record.Count - unseen);
        if (!seen.LongEnough)
        {
            return (null, FormattableString.Invariant(
                $"{(seen.KnownSteps * seen.Step).TotalHours:0} h with air, supply and hall are too few to describe the room; {Least.TotalHours:0} h are needed."));
        }

        var fit = new RoomFit(seen, priors);
        var room = fit.Run();
        var intervals = new List<ProfileInterval>();
        foreach (var parameter in Enum.GetValues<RoomParameter>())
        {
            if (parameter != RoomParameter.Base && !record.Missing.Contains(parameter)) intervals.Add(ProfileInterval.Of(fit, room, parameter));
        }

        return (new RoomIdentification
        {
            Room = room,
            Intervals = intervals,
            Validation = RoomValidation.Of(room, fit.AirNoise, record, record.Count - unseen),
            ErrorKelvins = fit.Sigma,
            AirNoise = fit.AirNoise,
            Words = [.. record.Notes, .. IdentifiedWords.Of(intervals)],
        }, null);
    }
}
