using System.Globalization;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>Random weeks of one shop one after the other, with what is not temperature put in by script.</summary>
/// <remarks>
/// The shop cuts when it has asked, whatever the answer: one that waits for its parts makes no deviation to ask about. Every fifth part carries an error
/// that nobody recorded. Four planet carriers in the middle of the block are cut after a wrong calibration of the probe (14 µm, scale right), soaked
/// and probed as they should be. M1 cuts pump housings only: those of the late shift clamped 2.5 µm longer by operator B, on parts and air 1.5 K cooler.
/// </remarks>
internal sealed class BlockStory
{
    private const string Finish = "40";
    private const string Confounded = "PH-340";
    private const string Carrier = "PC-620";
    private const string ConfoundedMachine = "M1";
    private const string CarrierMachine = "M2";
    private const double CoolerNights = -1.5;
    private const double ShiftComponent = 9.9; // of 14 µm at 45°
    private readonly List<TimedAction> story = [];
    private readonly Cell cell;
    private readonly Random random;

    private BlockStory(Cell cell, int seed, int weeks)
    {
        this.cell = cell;
        random = new Random(seed);
        var first = RandomWeek.Of(cell, seed);
        for (var week = 0; week < weeks; week++) Week(week == 0 ? first : RandomWeek.Of(cell, seed + week), week, weeks);
        Options = first.Options with { Script = Script.Once(story) };
    }

    /// <summary>How to make the cell that lives it; it keeps its truth.</summary>
    public VirtualCellOptions Options { get; }

    /// <summary>Shift of a whole pattern by serial, in µm: the batch and the unrecorded errors.</summary>
    public Dictionary<string, (double X, double Y)> Shifts { get; } = new(StringComparer.Ordinal);

    /// <summary>Unrecorded errors of features that are no pattern, as a share of the tolerance, by serial.</summary>
    public Dictionary<string, double> Errors { get; } = new(StringComparer.Ordinal);

    /// <summary>What operator B adds to a distance, in µm, by serial.</summary>
    public Dictionary<string, double> Offsets { get; } = new(StringComparer.Ordinal);

    /// <summary>The batch after the wrong calibration.</summary>
    public HashSet<string> Batch { get; } = new(StringComparer.Ordinal);

    /// <summary>Pump housings of the confounded case, both shifts.</summary>
    public HashSet<string> Nights { get; } = new(StringComparer.Ordinal);

    public static BlockStory Of(Cell cell, int seed, int weeks) => new(cell, seed, weeks);

    private void Week(RandomWeek week, int number, int weeks)
    {
        var from = TimeSpan.FromDays(7 * number);
        var withBatch = number == weeks / 2;
        var job = new List<TimedAction>();
        foreach (var told in week.Story)
        {
            if (told.Action is LoadJob { Serial.Length: > 0 }) job.Add(told);
            else if (job.Count > 0) job.Add(told);
            else story.Add(told with { At = told.At + from });
            if (told.Action is not FinishWhenSafe) continue;
            var load = (LoadJob)job[0].Action;
            var replaced = load.Machine == ConfoundedMachine || load.Part == Confounded || (withBatch && load.Machine == CarrierMachine && job[0].At.Days is >= 1 and <= 4 && job[0].At.Hours < 13);
            if (!replaced) Job(job, from, number);
            job.Clear();
        }

        Nightly(from, number);
        if (withBatch) Recalibrated(from, number);
    }

    private void Job(List<TimedAction> job, TimeSpan from, int number)
    {
        var load = (LoadJob)job[0].Action;
        var serial = load.Serial + "-w" + number.ToString(CultureInfo.InvariantCulture);
        Unrecorded(serial, load.Part);
        foreach (var told in job)
        {
            if (told.Action is FinishWhenSafe finish) Cut(told.At + from, finish.Machine, finish.Feature, finish.Duration);
            else story.Add(new TimedAction(told.At + from, told.Action is LoadJob loaded ? loaded with { Serial = serial } : told.Action));
        }
    }

    private void Unrecorded(string serial, string part)
    {
        var (draw, x, y) = (random.NextDouble(), Normal(), Normal());
        if (draw >= 0.2) return;
        var pattern = cell.FindPart(part)!.Features.OfType<PositionFeature>().Select(feature => feature.ToleranceMillimetres * 1000 / 4).FirstOrDefault();
        Shifts[serial] = (x * pattern, y * pattern);
        Errors[serial] = x / 2;
    }

    private void Cut(TimeSpan at, string machine, string? feature, TimeSpan duration)
    {
        story.Add(new TimedAction(at, new AskPermit(machine, Finish) { Feature = feature, Planned = duration }));
        story.Add(new TimedAction(at + TimeSpan.FromSeconds(30), new MoveCut(machine, true, Finish) { Feature = feature }));
        story.Add(new TimedAction(at + TimeSpan.FromSeconds(30) + duration, new MoveCut(machine, false, Finish) { Feature = feature }));
        story.Add(new TimedAction(at + TimeSpan.FromMinutes(2) + duration, new LoadJob(machine, "", "", "")));
    }

    private void Nightly(TimeSpan from, int number)
    {
        var zone = cell.Zones.First(one => one.Id == cell.FindMachine(ConfoundedMachine)!.Zone);
        for (var day = 0; day < 5; day++)
        {
            story.Add(new TimedAction(from + At(day, 13.5), new MoveSetpoint(zone.Id, zone.Setpoint.Value + CoolerNights)));
            story.Add(new TimedAction(from + At(day, 22), new MoveSetpoint(zone.Id, zone.Setpoint.Value)));
        }

        for (var shift = 0; shift < 11; shift++)
        {
            var late = shift % 2 == 1;
            var serial = FormattableString.Invariant($"{Confounded}-{100 + shift}-w{number}");
            Nights.Add(serial);
            if (late) Offsets[serial] = WeekInspection.OperatorB;
            Soaked(from + At(shift / 2, 6 + (8 * (shift % 2)) + 2 + (4 * random.NextDouble())), ConfoundedMachine, Confounded, serial, late ? CoolerNights : 0);
        }
    }

    private void Recalibrated(TimeSpan from, int number)
    {
        for (var shift = 0; shift < 4; shift++)
        {
            var serial = FormattableString.Invariant($"{Carrier}-{118 + shift}-w{number}");
            Batch.Add(serial);
            Shifts[serial] = (ShiftComponent, ShiftComponent);
            // In early shifts only: the cooler nights of M1 are those of M2 too, and this batch is the one that is not thermal.
            Soaked(from + At(1 + shift, 8), CarrierMachine, Carrier, serial, 0);
        }
    }

    // A blank that lay in the enclosure, touched with a thermometer and probed again before it is cut.
    private void Soaked(TimeSpan from, string machine, string part, string serial, double kelvin)
    {
        void Do(double minute, CellAction action) => story.Add(new TimedAction(from + TimeSpan.FromMinutes(minute), action));
        Do(0, new LoadJob(machine, serial, part, Finish) { TrueCelsius = 20 + kelvin + (0.1 * Normal()), SaidUncertaintyKelvin = 0.3, InCellFor = TimeSpan.FromHours(8) });
        Do(0.5, new RunMachine(machine, true));
        Do(3, new SwitchCoolant(machine, true));
        Do(14, new MeasureContact(machine));
        Do(15, new ProbeDatum(machine));
        Cut(from + TimeSpan.FromMinutes(16), machine, null, cell.FindPart(part)!.Features.Aggregate(TimeSpan.Zero, (sum, feature) => sum + feature.FinishDuration));
    }

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static TimeSpan At(int day, double hour) => TimeSpan.FromDays(day) + TimeSpan.FromHours(hour);
}
