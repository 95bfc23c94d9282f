namespace ClimateGuard.Enclosure;

/// <summary>Air and inputs of a zone in even steps, and which inputs were seen at all. Immutable by agreement.</summary>
public sealed class RoomRecord
{
    /// <summary>A record of steps.</summary>
    /// <param name="step">The step; one minute shows how the air alone answers, five do not.</param>
    /// <param name="air">Air by step, °C; NaN in gaps.</param>
    /// <param name="inputs">Inputs by step; a NaN makes the step a gap.</param>
    /// <param name="regimes">Regime by step.</param>
    /// <param name="missing">Parameters that nothing in the record tells of, such as an input that nobody measures.</param>
    /// <param name="notes">What was assumed, in words for a person.</param>
    public RoomRecord(TimeSpan step, double[] air, RoomInputs[] inputs, Regime[] regimes, IReadOnlyList<RoomParameter> missing, IReadOnlyList<string> notes)
    {
        ArgumentNullException.ThrowIfNull(air);
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(regimes);
        if (air.Length != inputs.Length || air.Length != regimes.Length) throw new ArgumentException("Air, inputs and regimes have the same steps.", nameof(air));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(step, TimeSpan.Zero);
        (Step, Air, Inputs, Regimes, Missing, Notes) = (step, air, inputs, regimes, missing, notes);
    }

    /// <summary>The step.</summary>
    public TimeSpan Step { get; }

    /// <summary>Steps in a day.</summary>
    public int StepsPerDay => (int)(TimeSpan.FromDays(1) / Step);

    internal double[] Air { get; }

    internal RoomInputs[] Inputs { get; }

    internal Regime[] Regimes { get; }

    /// <summary>Parameters that the record cannot tell of at all.</summary>
    public IReadOnlyList<RoomParameter> Missing { get; }

    /// <summary>What was assumed, in words for a person.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>How many steps.</summary>
    public int Count => Air.Length;

    /// <summary>How many steps have air and all inputs.</summary>
    public int KnownSteps => Air.Where((air, i) => !double.IsNaN(air) && Inputs[i].Known).Count();

    internal bool LongEnough => KnownSteps * Step >= RoomIdentification.Least;

    /// <summary>From the minutes of a zone.</summary>
    /// <param name="minutes">Minute by minute, ascending; a minute left out is a gap.</param>
    /// <returns>The record, or null with the reason when the room cannot be described from what is measured.</returns>
    public static (RoomRecord? Record, string? WhyNot) Of(IEnumerable<ZoneMoment> minutes)
    {
        ArgumentNullException.ThrowIfNull(minutes);
        const long minute = 60_000;
        var even = new List<ZoneMoment>();
        foreach (var moment in minutes)
        {
            var at = Math.DivRem(moment.EpochMilliseconds, minute).Quotient;
            if (even.Count > 0 && at <= even[^1].EpochMilliseconds / minute) continue;
            while (even.Count > 0 && even[^1].EpochMilliseconds / minute < at - 1) even.Add(Gap((even[^1].EpochMilliseconds / minute + 1) * minute));
            even.Add(moment);
        }

        return Of(TimeSpan.FromMinutes(1), even);
    }

    /// <summary>From the course of a zone, in its steps of five minutes.</summary>
    /// <param name="course">The course.</param>
    /// <param name="latest">How many of its latest steps; clipped to what it has.</param>
    /// <returns>The record, or null with the reason when the room cannot be described from what is measured.</returns>
    public static (RoomRecord? Record, string? WhyNot) Of(ZoneCourse course, int latest = int.MaxValue)
    {
        ArgumentNullException.ThrowIfNull(course);
        var steps = new List<ZoneMoment>();
        for (var i = Math.Max(0, course.Count - latest); i < course.Count; i++)
        {
            steps.Add(new ZoneMoment(
                0, course.Air[i], course.Setpoint[i], course.Supply[i], course.Flow[i], course.Hall[i], course.NextZone[i], course.Load[i], course.Door[i],
                course.Regimes[i]));
        }

        return Of(TimeSpan.FromMinutes(ZoneCourse.StepMinutes), steps);
    }

    private static (RoomRecord? Record, string? WhyNot) Of(TimeSpan step, List<ZoneMoment> steps)
    {
        bool Seen(Func<ZoneMoment, double> value) => steps.Exists(s => !double.IsNaN(value(s)));
        if (!Seen(s => s.SupplyCelsius)) return (null, "There is no sensor in the supply air: the heat that the air handler takes away is not known.");
        if (!Seen(s => s.HallCelsius)) return (null, "There is no sensor in the hall: the heat through the walls is not known.");
        var missing = new List<RoomParameter>();
        var notes = new List<string>();
        bool next = Seen(s => s.NextZoneCelsius), load = Seen(s => s.LoadKilowatts), flow = Seen(s => s.FlowShare);
        if (!next) missing.Add(RoomParameter.NextZone);
        if (!load) missing.Add(RoomParameter.LoadShare);
        if (!load) notes.Add("The power of the machines is not measured: their heat is part of what nobody measures.");
        if (!flow) notes.Add("The fan speed is not measured: full flow is assumed.");
        if (!steps.Exists(s => s.DoorOpen > 0)) missing.Add(RoomParameter.Door);
        var inputs = steps.Select(s => new RoomInputs(
            s.SupplyCelsius, flow ? s.FlowShare : 1, s.HallCelsius, next ? s.NextZoneCelsius : 0, load ? s.LoadKilowatts : 0,
            double.IsNaN(s.DoorOpen) ? 0 : s.DoorOpen));
        return (new RoomRecord(step, [.. steps.Select(s => s.AirCelsius)], [.. inputs], [.. steps.Select(s => s.Regime)], missing, notes), null);
    }

    private static ZoneMoment Gap(long epochMilliseconds) => new(
        epochMilliseconds, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, Regime.Unknown);

    /// <summary>Some of its steps.</summary>
    internal RoomRecord Slice(int from, int count) =>
        new(Step, Air[from..(from + count)], Inputs[from..(from + count)], Regimes[from..(from + count)], Missing, Notes);
}
