using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

/// <summary>Random shifts of a machine: whatever happens in whatever order, a permit stays what it promises.</summary>
public sealed class PermitProperties
{
    private static readonly Gen<Happening[]> Shift = Gen.OneOf(
        Gen.Int[1, 900].Select(seconds => new Happening("wait", seconds)),
        Gen.Int[1, 900].Select(seconds => new Happening("wait", seconds)),
        Gen.Int[0, 3].Select(serial => new Happening("load", serial)),
        Gen.Int[0, 3].Select(serial => new Happening("loadCold", serial)),
        Gen.Int[0, 8].Select(id => new Happening("ask", id)),
        Gen.Int[0, 8].Select(id => new Happening("ask", id)),
        Gen.Int[0, 8].Select(id => new Happening("askLate", id)),
        Gen.Const(new Happening("airLost", 0)),
        Gen.Int[17, 24].Select(celsius => new Happening("air", celsius)),
        Gen.Int[17, 26].Select(celsius => new Happening("coolant", celsius)),
        Gen.Bool.Select(on => new Happening(on ? "coolantOn" : "coolantOff", 0)),
        Gen.Bool.Select(start => new Happening(start ? "cutStarted" : "cutFinished", 0)),
        Gen.Int[15, 25].Select(celsius => new Happening("contact", celsius)),
        Gen.Int[0, 1].Select(person => new Happening("override", person)),
        Gen.Const(new Happening("unload", 0))).Array[5, 40];

    [Fact]
    public void Whatever_happens_a_permit_stays_what_it_promises() => Shift.Sample(
        shift =>
        {
            var machine = new WatchedMachine();
            machine.Tick();
            var watcher = new Watcher(machine);
            foreach (var happening in shift)
            {
                watcher.Before();
                Apply(machine, happening);
                watcher.After(happening);
            }
        },
        iter: 100);

    private static void Apply(WatchedMachine machine, Happening happening)
    {
        switch (happening.What)
        {
            case "wait":
                machine.For(TimeSpan.FromSeconds(happening.Number), TimeSpan.FromSeconds(60));
                break;
            case "load":
                machine.Load(20, $"S{happening.Number}");
                break;
            case "loadCold":
                machine.Load(13, $"S{happening.Number}");
                break;
            case "ask":
                machine.Ask($"r{happening.Number}", machine.State.Job?.Serial ?? "S0");
                break;
            case "askLate":
                machine.Ask($"late{happening.Number}", machine.State.Job?.Serial ?? "S0", age: TimeSpan.FromMinutes(1));
                break;
            case "airLost":
                machine.Air = double.NaN;
                machine.Tick();
                break;
            case "air":
                machine.Air = happening.Number;
                machine.Tick();
                break;
            case "coolant":
                machine.Coolant = happening.Number;
                machine.Tick();
                break;
            default:
                machine.Take(EventOf(machine, happening));
                break;
        }
    }

    private static MachineEvent EventOf(WatchedMachine machine, Happening happening)
    {
        var serial = machine.State.Job?.Serial ?? "S0";
        return happening.What switch
        {
            "coolantOn" => new CoolantSwitched(machine.Now, "M1", On: true),
            "coolantOff" => new CoolantSwitched(machine.Now, "M1", On: false),
            "contact" => new ContactMeasured(machine.Now, "M1") { Value = new Celsius(happening.Number), Uncertainty = new Kelvins(0.1) },
            "override" => new Overridden(machine.Now, "M1")
            {
                Serial = serial, Operation = "40", By = happening.Number == 0 ? "A. Berg" : "C. Dahl", Reason = "deadline", Until = machine.Now.AddHours(1),
            },
            "unload" => new JobLoaded(machine.Now, "M1") { Serial = "", Part = "" },
            _ => new CutMoved(machine.Now, "M1") { Started = happening.What == "cutStarted", Serial = serial, Operation = "40" },
        };
    }

    private sealed record Happening(string What, int Number)
    {
        public override string ToString() => $"{What} {Number}";
    }

    /// <summary>Looks at every step for what must never be.</summary>
    private sealed class Watcher(WatchedMachine machine)
    {
        private readonly Dictionary<string, PermitAnswer> answers = [];
        private MachineState before = machine.State;
        private int seen;

        public void Before()
        {
            before = machine.State;
            seen = machine.Decisions.Count;
        }

        public void After(Happening happening)
        {
            var decided = machine.Decisions.Skip(seen).ToArray();
            foreach (var answered in decided.OfType<RequestAnswered>())
            {
                Check(answered);
            }

            var seqs = machine.Decisions.OfType<OutlookIssued>().Select(issued => issued.Outlook.Seq).ToArray();
            Assert.Equal(Enumerable.Range(1, seqs.Length).Select(i => (long)i), seqs);
            CheckLatch(happening, decided);
            if (before.Permits.Newest is { Fate: PermitFate.Used } used && machine.State.Permits.Newest?.Id == used.Id)
            {
                Assert.Equal(PermitFate.Used, machine.State.Permits.Newest.Fate);
            }
        }

        private void Check(RequestAnswered answered)
        {
            var answer = answered.Answer;
            if (answer.ReasonCode == ReasonCodes.IdReused)
            {
                Assert.Null(answer.Permit);
                return;
            }

            if (answers.TryGetValue(answer.RequestId, out var known))
            {
                Assert.True(answered.Repeated);
                Assert.Equal(known, answer);
                return;
            }

            answers.Add(answer.RequestId, answer);
            if (double.IsNaN(machine.Air) || answer.RequestId.StartsWith("late", StringComparison.Ordinal))
            {
                Assert.NotEqual(Answer.Go, answer.Answer);
            }

            var isGo = answer.Answer is Answer.Go or Answer.GoOverridden;
            Assert.Equal(isGo, answer.Permit is not null);
            if (isGo && before.Permits.Newest is { } older && older.HoldsAt(machine.Now))
            {
                Assert.Contains(machine.Decisions.OfType<PermitChanged>(), changed => changed.Permit.Id == older.Id && changed.Permit.Fate != PermitFate.Valid);
            }

            Assert.Equal(answers.Values.Count(a => a.Permit is not null), answers.Values.Where(a => a.Permit is not null).Select(a => a.Permit!.Id).Distinct().Count());
        }

        private void CheckLatch(Happening happening, Decision[] decided)
        {
            if (before.Permits.Latch is null || machine.State.Permits.Latch is not null)
            {
                return;
            }

            var wentGo = decided.OfType<RequestAnswered>().Any(answered => answered.Answer.Permit is not null);
            Assert.True(
                wentGo || happening.What is "contact" or "load" or "loadCold" or "unload" or "override",
                $"a latched hold was lost by {happening}");
        }
    }
}
