using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Machines;

/// <summary>One machine stepped by hand: what is told to it, and all it decided.</summary>
internal sealed class WatchedMachine
{
    private readonly MachineWatch watch;

    public WatchedMachine(Cell? cell = null)
    {
        var described = cell ?? SmallCell.Of();
        watch = new MachineWatch(described, described.Machines[0]);
        Now = Some.Morning;
        State = watch.Begin(Now);
    }

    public DateTimeOffset Now { get; private set; }

    public MachineState State { get; private set; }

    public List<Decision> Decisions { get; } = [];

    public double Air { get; set; } = 20;

    public double Coolant { get; set; } = 20;

    public double PartSensor { get; set; } = double.NaN;

    public double Hall { get; set; } = double.NaN;

    public AirCourse? AirAhead { get; set; }

    public Outlook Outlook => State.Outlook!;

    public IEnumerable<Alert> Alerts => Decisions.OfType<AlertRaised>().Select(raised => raised.Alert);

    public WatchedMachine Tick(TimeSpan later = default)
    {
        Now += later;
        return Take(null);
    }

    public WatchedMachine For(TimeSpan time, TimeSpan step)
    {
        for (var passed = TimeSpan.Zero; passed < time; passed += step)
        {
            Tick(step);
        }

        return this;
    }

    public WatchedMachine Load(double? startCelsius = 20, string serial = "S1", double uncertainty = 0.1, string part = "D-1") => Take(
        new JobLoaded(Now, "M1")
        {
            Serial = serial,
            Part = part,
            Operation = "40",
            Planned = TimeSpan.FromMinutes(35),
            Start = startCelsius is { } celsius ? new Celsius(celsius) : null,
            StartUncertainty = new Kelvins(uncertainty),
        });

    public PermitAnswer Ask(string requestId, string serial = "S1", string operation = "40", string part = "D-1", TimeSpan age = default)
    {
        Take(new PermitRequested(Now, "M1")
        {
            RequestId = requestId, Serial = serial, Part = part, Operation = operation, SentAt = Now - age, Planned = TimeSpan.FromMinutes(35),
        });
        return Decisions.OfType<RequestAnswered>().Last().Answer;
    }

    public WatchedMachine Take(MachineEvent? happened)
    {
        var climate = new LocalClimate(Air, Coolant, PartSensor, 0.1, double.NaN, 0, double.NaN, Hall, double.NaN)
        {
            AirMissingBecause = double.IsNaN(Air) ? "air/a1 is silent for 7 min" : null,
            CoolantMissingBecause = double.IsNaN(Coolant) ? "m1/coolant is silent for 4 min" : null,
        };
        var (state, decisions) = watch.Step(State, new MachineMoment(Now, climate, happened, AirAhead));
        State = state;
        Decisions.AddRange(decisions);
        return this;
    }
}
