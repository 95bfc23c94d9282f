namespace ClimateGuard.Enclosure;

/// <summary>The room and its loop, driven by the set point, the load, the hall and the doors to come, within the limits of the air handler.</summary>
/// <remarks>
/// Identified anew once a day from the last week; silent while supply or hall are not measured or the loop cannot be seen. What the room did
/// beside the model in the last hour counts as heat that nobody measures and is expected to go on, as in control with an integrating disturbance.
/// </remarks>
internal sealed class RoomAhead(int hour = 0) : AirModel
{
    private const int Week = ZoneCourse.StepsPerWeek;
    private const int LeadSteps = Week / 7 * 2;
    private const long Never = long.MinValue;
    private const int BesideSteps = 60 / ZoneCourse.StepMinutes;
    private const int IdentifyEvery = Week / 7;
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(ZoneCourse.StepMinutes);
    private readonly double[] course = new double[ComingInputs.Steps + 1];
    private long identifiedAt = Never;
    private RoomModel? room;
    private SupplyLoop? loop;
    private RoomFilter filter;
    private RoomInputs last;
    private double besideKelvins;

    public override AirModelKind Kind => AirModelKind.Room;

    public override void Take(ZoneCourse course)
    {
        if (room is not null) Follow(course, course.Count - 1);
    }

    public override void Learn(ZoneCourse course)
    {
        if (course.Count * Step < RoomIdentification.Least || !IsDue(course.LastStep)) return;
        identifiedAt = course.LastStep;
        loop = SupplyLoop.Of(course, Week);
        if (loop is null || RoomRecord.Of(course, Week).Record is not { } record || !record.LongEnough)
        {
            room = null;
            return;
        }

        besideKelvins = 0;
        var fit = new RoomFit(record, RoomPriors.Usual);
        room = fit.Run(room ?? RoomPriors.Usual.Room);
        filter = new RoomFilter(room, fit.AirNoise, Step);
        for (var i = Math.Max(0, course.Count - LeadSteps); i < course.Count; i++) Follow(course, i);
    }

    // At its own hour of the day, and where that was missed.
    private bool IsDue(long step)
    {
        if (identifiedAt == Never) identifiedAt = step - (IdentifyEvery / 2);
        var sinceLast = step - identifiedAt;
        return sinceLast >= IdentifyEvery || (sinceLast >= IdentifyEvery / 2 && step / (IdentifyEvery / 24) % 24 == hour % 24);
    }

    public override void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius)
    {
        if (room is null || loop is null || !filter.Runs)
        {
            celsius.Fill(double.NaN);
            return;
        }

        Play(course.Air[^1], course.Setpoint[^1], course.Regimes[^1], coming);
        for (var h = 0; h < steps.Length; h++) celsius[h] = this.course[steps[h]];
    }

    private void Follow(ZoneCourse course, int step)
    {
        last = Inputs(course, step);
        filter.Step(course.Air[step], last, out var innovation, out _);
        besideKelvins = double.IsNaN(innovation) ? 0 : besideKelvins + ((innovation - besideKelvins) / BesideSteps);
    }

    private void Play(double airNow, double setpointNow, Regime regime, ComingInputs coming)
    {
        double air = filter.Air, mass = filter.Mass, supply = last.SupplyCelsius, asked = supply, error = setpointNow - airNow;
        var control = regime == Regime.AtCapacity ? loop!.HeldAt(supply, airNow) : loop!;
        var besideWatts = besideKelvins * room![RoomParameter.AirHeat] / Step.TotalSeconds;
        var transition = new RoomTransition(room, last, Step.TotalSeconds);
        for (var k = 1; k <= ComingInputs.Steps; k++)
        {
            var errorBefore = error;
            error = coming.Setpoint[k] - air;
            if (last.FlowShare > 0.05) (asked, supply) = control.Step(asked, supply, errorBefore, error);
            var inputs = last with
            {
                SupplyCelsius = supply,
                HallCelsius = Or(coming.Hall[k], last.HallCelsius),
                LoadKilowatts = Or(coming.Load[k], last.LoadKilowatts),
                DoorOpen = Or(coming.DoorAt(k), last.DoorOpen),
            };
            if (!transition.Fits(inputs)) transition = new RoomTransition(room, inputs, Step.TotalSeconds);
            (air, mass) = transition.Step(air, mass, room.Drive(inputs).Watts + besideWatts);
            course[k] = air;
        }
    }

    private static RoomInputs Inputs(ZoneCourse course, int i) => new(
        course.Supply[i], Or(course.Flow[i], 1), course.Hall[i], Or(course.NextZone[i], 0), Or(course.Load[i], 0), Or(course.Door[i], 0));

    private static double Or(double value, double otherwise) => double.IsNaN(value) ? otherwise : value;
}
