using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>A request, what was answered, and what was true.</summary>
internal sealed record ScoredRequest(
    int Seed, AskRecord Ask, bool First, CutTruth Truth, PermitAnswer Answer, EarliestStart? Start, DateTimeOffset StartFrom, TimeSpan? TrulySafe, double AirOffset)
{
    /// <summary>The outlook that came with the answer, and the truth of that minute and of the feature it names; null when there was none.</summary>
    public RequestBackground? Background { get; init; }

    public bool Stopped => Answer.Answer is Thermal.Answer.Hold or Thermal.Answer.Measure or Thermal.Answer.Unknown;

    public bool LetGo => Answer.Answer is Thermal.Answer.Go or Thermal.Answer.GoWithOffset;
}

/// <summary>One random week through the product: the loop of <c>run</c> in event time, without a broker and without a disk.</summary>
internal static class WeekRun
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    // What the air handlers' findings say changes no answer; judging each day once leaves the time to the machines.
    private static readonly AirPace Seldom = new(TimeSpan.FromMinutes(5), TimeSpan.FromDays(1));

    public static async Task<IReadOnlyList<ScoredRequest>> PlayAsync(Cell cell, int seed, double days, bool silent)
    {
        var world = new VirtualCell(cell, RandomWeek.Of(cell, seed, silent).Options);
        var edges = new MemoryEdges();
        var time = new VirtualTime(world.Now);
        var loop = new CellLoop(cell, "truth", edges.Ports(), new CellLoopOptions { MostInBatch = 65_536, AirPace = Seldom }, time);
        using var ending = new CancellationTokenSource();
        var running = loop.RunAsync(ending.Token);
        var air = new Dictionary<string, double>(StringComparer.Ordinal);
        var end = world.Now + TimeSpan.FromDays(days);
        var lastRound = world.Now;
        while (world.Now < end)
        {
            var happened = false;
            var moment = world.Now + TimeSpan.FromSeconds(10);
            world.Advance(moment, reading => edges.Round.Add(new Arrival { Reading = reading, ArrivedAt = moment }), said =>
            {
                happened = true;
                edges.Round.Add(new Arrival { Event = said, ArrivedAt = moment });
                if (said is PermitRequested request) air[request.RequestId] = AirOffset(world, request.Machine);
            });
            if (!happened && moment - lastRound < Minute) continue;
            (time.Now, lastRound) = (moment, moment);
            await edges.Round.RunAsync();
        }

        await ending.CancelAsync();
        await running.ContinueWith(static _ => { }, TaskScheduler.Default);
        return Score(seed, world, edges.Told, air);
    }

    private static double AirOffset(VirtualCell world, string machine) =>
        world.Room.FindZone(world.FindMachine(machine)!.Machine.Zone) is { } zone ? zone.LowCelsius - zone.Zone.Setpoint.Value : 0;

    private static List<ScoredRequest> Score(int seed, VirtualCell world, List<Decision> told, Dictionary<string, double> air)
    {
        var answers = new Dictionary<string, (PermitAnswer Answer, int At)>(StringComparer.Ordinal);
        for (var i = 0; i < told.Count; i++)
        {
            if (told[i] is RequestAnswered { Repeated: false } answered) answers.TryAdd(answered.Answer.RequestId, (answered.Answer, i));
        }

        var scored = new List<ScoredRequest>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var ask in world.Asks)
        {
            if (world.Truth!.Of(ask) is not { } truth || !answers.TryGetValue(ask.RequestId, out var answered)) continue;
            var outlook = OutlookWith(told, answered.At, ask.Machine, answered.Answer);
            scored.Add(new ScoredRequest(
                seed,
                ask,
                seen.Add(ask.Serial),
                truth,
                answered.Answer,
                outlook is null ? answered.Answer.Start : outlook.Start,
                outlook?.IssuedAt ?? answered.Answer.StartCountsFrom ?? answered.Answer.Time,
                world.Truth.EarliestSafe(ask),
                air.GetValueOrDefault(ask.RequestId)) { Background = RequestBackground.Of(world.Truth, ask, answered.Answer, outlook) });
        }

        return scored;
    }

    // The answer carries the start of the last outlook; the outlook that comes with the answer has the new one.
    private static Outlook? OutlookWith(List<Decision> told, int at, string machine, PermitAnswer answer)
    {
        for (var i = at; i < told.Count && told[i].Time - answer.Time <= Minute; i++)
        {
            if (told[i] is OutlookIssued issued && issued.Outlook.Machine == machine && issued.Outlook.Serial == answer.Serial)
                return issued.Outlook;
        }

        return null;
    }
}
