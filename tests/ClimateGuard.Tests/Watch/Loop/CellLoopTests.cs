using System.Collections.Concurrent;
using System.Threading.Channels;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Watch.Loop;

/// <summary>The order of the five stops, and what happens when one of them fails.</summary>
public sealed class CellLoopTests
{
    private readonly Recorder recorder = new();
    private readonly FakeTimeProvider time = new(Some.Morning);
    private readonly Cell cell = SmallCell.Of();
    private readonly ConcurrentQueue<CellSnapshot> shown = new();

    [Fact]
    public async Task A_reading_is_committed_before_it_is_acknowledged()
    {
        await RunAsync(() =>
        {
            recorder.Send(Reading(20));
            return recorder.UntilAsync("acknowledged 1");
        });

        Assert.True(recorder.IndexOf("readings 1") < recorder.IndexOf("acknowledged 1"));
    }

    [Fact]
    public async Task An_event_is_in_the_ledger_before_it_is_acknowledged_and_a_decision_before_it_is_told()
    {
        await RunAsync(() =>
        {
            recorder.Send(Reading(20));
            recorder.Send(new Arrival { Event = new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40", Start = new Celsius(12) }, ArrivedAt = Some.Morning });
            return recorder.UntilAsync("told hold");
        });

        Assert.True(recorder.IndexOf("ledger event") < recorder.IndexOf("acknowledged"));
        Assert.True(recorder.IndexOf("ledger outlook") < recorder.IndexOf("told hold"));
    }

    [Fact]
    public async Task When_the_store_fails_nothing_is_acknowledged_and_nothing_is_told()
    {
        recorder.StoreFails = true;
        recorder.Send(Reading(20));
        using var ending = new CancellationTokenSource(TimeSpan.FromSeconds(10));

        await Assert.ThrowsAsync<IOException>(() => Loop().RunAsync(ending.Token));

        Assert.DoesNotContain(recorder.Log, line => line.StartsWith("acknowledged", StringComparison.Ordinal) || line.StartsWith("told", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_worker_that_lost_its_lease_renews_no_outlook_although_that_has_no_line()
    {
        var loop = Loop();
        await RunAsync(loop, () =>
        {
            recorder.Send(Reading(20));
            return recorder.UntilAsync("told outlook");
        });
        recorder.LeaseIsLost = true;
        var told = recorder.Log.Count(line => line.StartsWith("told", StringComparison.Ordinal));
        var running = loop.RunAsync(CancellationToken.None);
        for (var second = 0; second < 600 && !running.IsCompleted; second++)
        {
            time.Advance(TimeSpan.FromSeconds(1));
            await Task.Delay(5);
        }

        await Assert.ThrowsAsync<LeaseLostException>(() => running.WaitAsync(TimeSpan.FromSeconds(10)));
        Assert.Equal(told, recorder.Log.Count(line => line.StartsWith("told", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_message_that_cannot_be_read_is_kept_and_then_acknowledged()
    {
        await RunAsync(() =>
        {
            recorder.Send(new Arrival { Unreadable = new UnreadableMessage("cg/small/reading/x", "unknown sensor x", "20"), ArrivedAt = Some.Morning });
            return recorder.UntilAsync("acknowledged 1");
        });

        Assert.True(recorder.IndexOf("unreadable 1") < recorder.IndexOf("acknowledged 1"));
    }

    [Fact]
    public async Task An_event_for_a_machine_that_is_not_there_is_kept_and_told_to_a_person()
    {
        await RunAsync(() =>
        {
            recorder.Send(new Arrival { Event = new CoolantSwitched(Some.Morning, "M7", On: true), ArrivedAt = Some.Morning });
            return recorder.UntilAsync("told unknown machine");
        });

        Assert.Contains("ledger event", recorder.Log);
    }

    [Fact]
    public async Task A_broker_gone_for_22_minutes_means_not_known_and_what_comes_late_raises_no_alert_about_the_past()
    {
        var loop = Loop();
        await RunAsync(loop, async () =>
        {
            recorder.Send(Reading(20));
            await loop.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40", Start = new Celsius(20) }, CancellationToken.None);
            for (var minute = 0; minute < 22; minute++)
            {
                time.Advance(TimeSpan.FromMinutes(1));
                await Task.Delay(5);
            }

            Assert.Equal(ClimateGuard.Thermal.Answer.Unknown, (await AskAsync(loop, "r1")).Answer);
            for (var late = 21; late >= 0; late--)
            {
                var stamped = time.GetUtcNow() - TimeSpan.FromMinutes(late);
                recorder.Send(new Arrival { Reading = new Reading(0, stamped.ToUnixTimeMilliseconds(), 20 + (0.1 * late)), ArrivedAt = time.GetUtcNow() });
            }

            await recorder.UntilAsync("readings");
            Assert.Equal(ClimateGuard.Thermal.Answer.Go, (await AskAsync(loop, "r2")).Answer);
            Assert.DoesNotContain("told hold", recorder.Log);
            Assert.All(recorder.Log.Where(line => line.StartsWith("told ", StringComparison.Ordinal) && !line.StartsWith("told outlook", StringComparison.Ordinal) && line != "told"),
                line => Assert.Equal("told not known", line));
        });
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(1)]
    public async Task A_clock_that_is_set_by_an_hour_neither_freezes_nor_ages_anything(int hours)
    {
        var wall = new SettableClock(time);
        var loop = Loop(wall);
        await RunAsync(loop, async () =>
        {
            recorder.Send(Reading(20));
            await loop.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40", Start = new Celsius(20) }, CancellationToken.None);
            await loop.PostAsync(Asked("r1"), CancellationToken.None);
            var left = loop.Snapshot.Machines[0].Permits.Newest!.ValidUntil - loop.Snapshot.Time;

            wall.Set(TimeSpan.FromHours(hours));
            recorder.Send(Reading(20) with { Reading = new Reading(0, wall.GetUtcNow().ToUnixTimeMilliseconds(), 20), ArrivedAt = wall.GetUtcNow() });
            time.Advance(TimeSpan.FromMilliseconds(250));
            for (var tries = 0; tries < 200 && loop.Snapshot.Time != wall.GetUtcNow(); tries++)
            {
                await Task.Delay(10);
            }

            var machine = loop.Snapshot.Machines[0];
            Assert.True(machine.Permits.Newest!.HoldsAt(loop.Snapshot.Time));
            Assert.Equal(left.TotalSeconds, (machine.Permits.Newest.ValidUntil - loop.Snapshot.Time).TotalSeconds, 2.0);
            Assert.Equal(Level.Ready, machine.Outlook.Level);
            Assert.InRange(machine.Outlook.IssuedAt, wall.GetUtcNow().AddMinutes(-1), wall.GetUtcNow());
        });
    }

    [Fact]
    public async Task A_worker_that_starts_again_goes_on_with_the_same_hold_and_not_known_until_readings_come()
    {
        var first = Loop();
        await RunAsync(first, async () =>
        {
            recorder.Send(Reading(20));
            await first.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40", Start = new Celsius(12) }, CancellationToken.None);
            await first.PostAsync(Asked("r1"), CancellationToken.None);
        });

        var second = Loop();
        await RunAsync(second, async () =>
        {
            var answer = (await second.PostAsync(Asked("r2"), CancellationToken.None)).OfType<RequestAnswered>().Single().Answer;
            Assert.Equal(ClimateGuard.Thermal.Answer.Unknown, answer.Answer);
            var repeated = (await second.PostAsync(Asked("r1"), CancellationToken.None)).OfType<RequestAnswered>().Single();
            Assert.True(repeated.Repeated);
            Assert.Equal(ClimateGuard.Thermal.Answer.Hold, repeated.Answer.Answer);
        });

        Assert.Equal("S1", second.Snapshot.Machines[0].Job!.Serial);
        Assert.NotNull(second.Snapshot.Machines[0].Permits.Latch);
    }

    [Fact]
    public async Task The_first_picture_a_worker_shows_after_a_restart_has_the_job_that_was_loaded_before()
    {
        var first = Loop();
        await RunAsync(first, () => first.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40" }, CancellationToken.None));
        shown.Clear();

        await RunAsync(Loop(), async () =>
        {
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(10));
            while (shown.IsEmpty) await Task.Delay(5, patience.Token);
        });

        Assert.True(shown.TryPeek(out var picture));
        Assert.Equal("S1", picture.Machines[0].Job?.Serial);
        Assert.Equal(Level.NotKnown, picture.Machines[0].Outlook.Level);
    }

    [Fact]
    public async Task A_posted_event_returns_when_its_decisions_are_in_the_ledger()
    {
        var loop = Loop();
        await RunAsync(loop, async () =>
        {
            recorder.Send(Reading(20));
            await loop.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Start = new Celsius(20) }, CancellationToken.None);
            Assert.Contains("ledger outlook", recorder.Log);
        });
    }

    [Fact]
    public async Task The_clock_alone_turns_an_outlook_to_not_known_when_the_sensors_fall_silent()
    {
        var loop = Loop();
        await RunAsync(loop, async () =>
        {
            recorder.Send(Reading(20));
            await loop.PostAsync(new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Start = new Celsius(20) }, CancellationToken.None);
            for (var minute = 0; minute < 8 && loop.Snapshot.Machines[0].Outlook.Level != Level.NotKnown; minute++)
            {
                time.Advance(TimeSpan.FromMinutes(1));
                await Task.Delay(20);
            }

            Assert.Equal(Level.NotKnown, loop.Snapshot.Machines[0].Outlook.Level);
        });
    }

    [Fact]
    public async Task A_changed_plant_file_is_in_the_ledger_before_it_is_in_force_and_in_the_store_before_the_next_reading_is_kept()
    {
        var loop = Loop();
        await RunAsync(loop, async () =>
        {
            recorder.Send(Reading(20));
            await recorder.UntilAsync("readings 1");
            loop.Offer(new PlantChange(new PlantVersion(SmallCell.Of(), "v2"), "v1", ["name: a → b"]));
            recorder.Send(Reading(20));
            recorder.Send(Reading(20) with { Cell = cell });
            await recorder.UntilAsync("use v2");
            recorder.Send(Reading(20));
            await recorder.UntilAsync("told plant v2");
        });

        Assert.True(recorder.IndexOf("ledger config") < recorder.IndexOf("told plant v2"));
        Assert.True(recorder.IndexOf("ledger config") < recorder.IndexOf("use v2"));
        Assert.Equal("v2", loop.Snapshot.ConfigVersion);
        var (kept, acknowledged) = (Sum("readings "), Sum("acknowledged "));
        Assert.Equal(kept, acknowledged);
    }

    [Fact]
    public async Task When_the_ledger_does_not_take_a_changed_plant_file_the_old_one_stays_in_force()
    {
        var loop = Loop();
        await RunAsync(loop, () =>
        {
            recorder.Send(Reading(20));
            return recorder.UntilAsync("readings 1");
        });
        recorder.LeaseIsLost = true;
        loop.Offer(new PlantChange(new PlantVersion(SmallCell.Of(), "v2"), "v1", []));

        await Assert.ThrowsAsync<LeaseLostException>(async () =>
        {
            var running = loop.RunAsync(CancellationToken.None);
            recorder.Send(Reading(20));
            await running.WaitAsync(TimeSpan.FromSeconds(10));
        });

        Assert.Equal(("v1", "v1"), (loop.Snapshot.ConfigVersion, loop.Plant.Version));
        Assert.DoesNotContain(recorder.Log, line => line.StartsWith("use", StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_was_offered_while_another_worker_decided_is_taken_over_and_used_before_anything_is_kept()
    {
        var loop = Loop();
        loop.Offer(new PlantChange(new PlantVersion(SmallCell.Of(), "v2"), "v1", []));

        Assert.Equal("v2", loop.TakeOverPlant().Version);
        await RunAsync(loop, () =>
        {
            recorder.Send(Reading(20));
            return recorder.UntilAsync("readings 1");
        });

        Assert.True(recorder.IndexOf("use v2") < recorder.IndexOf("readings 1"));
        Assert.DoesNotContain("ledger config", recorder.Log);
    }

    private int Sum(string start) => recorder.Log.Where(line => line.StartsWith(start, StringComparison.Ordinal))
        .Sum(line => int.Parse(line[start.Length..], System.Globalization.CultureInfo.InvariantCulture));

    private async Task<PermitAnswer> AskAsync(CellLoop loop, string id)
    {
        var asked = Asked(id) with { Time = time.GetUtcNow() };
        return (await loop.PostAsync(asked, CancellationToken.None)).OfType<RequestAnswered>().Single().Answer;
    }

    private static PermitRequested Asked(string id) => new(Some.Morning, "M1")
    {
        Serial = "S1", Part = "D-1", Operation = "40", RequestId = id,
    };

    private static Arrival Reading(double value) => new()
    {
        Reading = new Reading(0, Some.Morning.ToUnixTimeMilliseconds(), value), ArrivedAt = Some.Morning,
    };

    private CellLoop Loop(TimeProvider? clock = null) => new(
        cell,
        "v1",
        new CellLoopPorts
        {
            Source = recorder, Readings = recorder, Ledger = recorder, Channels = [recorder],
            EventLine = LedgerLines.Of, DecisionLine = LedgerLines.Of, Show = shown.Enqueue, UsePlant = (plant, _) => recorder.Use(plant),
            Checkpoint = state => new MachineCheckpoint(state.Machine, MachineStateJson.Text(state)),
            State = checkpoint => MachineStateJson.Read(checkpoint.Json).State,
            Event = line => EventDecoder.DecodeLine(System.Text.Encoding.UTF8.GetBytes(line.Json)).Event,
        },
        new CellLoopOptions(),
        clock ?? time);

    private Task RunAsync(Func<Task> work) => RunAsync(Loop(), work);

    private static async Task RunAsync(CellLoop loop, Func<Task> work)
    {
        using var ending = new CancellationTokenSource();
        var running = loop.RunAsync(ending.Token);
        await work();
        await ending.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
        {
            await running;
            throw new OperationCanceledException();
        });
    }

    /// <summary>A wall clock that somebody sets while the steady clock goes on.</summary>
    private sealed class SettableClock(FakeTimeProvider steady) : TimeProvider
    {
        private TimeSpan set;

        public override long TimestampFrequency => steady.TimestampFrequency;

        public void Set(TimeSpan by) => set += by;

        public override DateTimeOffset GetUtcNow() => steady.GetUtcNow() + set;

        public override long GetTimestamp() => steady.GetTimestamp();

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
            steady.CreateTimer(callback, state, dueTime, period);
    }

    private sealed class Recorder : IReadingSource, IReadingStore, ILedgerStore, IAlertChannel
    {
        private readonly Channel<Arrival> arrivals = Channel.CreateUnbounded<Arrival>();
        private readonly List<string> log = [];

        public bool StoreFails { get; set; }

        public bool LeaseIsLost { get; set; }

        public ChannelReader<Arrival> Arrivals => arrivals.Reader;

        public string Name => "recorder";

        public IReadOnlyList<string> Log
        {
            get
            {
                lock (log)
                {
                    return [.. log];
                }
            }
        }

        public void Send(Arrival arrival) => Assert.True(arrivals.Writer.TryWrite(arrival));

        public int IndexOf(string start)
        {
            var index = Log.ToList().FindIndex(line => line.StartsWith(start, StringComparison.Ordinal));
            Assert.True(index >= 0, $"{start} is not among {string.Join(", ", Log)}");
            return index;
        }

        public async Task UntilAsync(string start)
        {
            for (var tries = 0; tries < 1000; tries++)
            {
                if (Log.Any(line => line.StartsWith(start, StringComparison.Ordinal)))
                {
                    return;
                }

                await Task.Delay(10);
            }

            Assert.Fail($"{start} did not come: {string.Join(", ", Log)}");
        }

        public ValueTask AcknowledgeAsync(ReadOnlyMemory<Arrival> batch, CancellationToken cancellation) => Note($"acknowledged {batch.Length}");

        public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation) =>
            StoreFails ? throw new IOException("disk full") : Note($"readings {batch.Length}");

        public ValueTask KeepUnreadableAsync(
            IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) => Note($"unreadable {messages.Count}");

        public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
            string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) => new([]);

        public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
            AsyncEnumerable.Empty<StoredReading>();

        public LedgerCheckpoints Kept { get; set; } = new(0, []);

        public ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation) => new(Kept);

        public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation)
        {
            Kept = checkpoints.Count == 0 ? Kept : new LedgerCheckpoints(0, checkpoints);
            return AppendAsync(lines, cancellation);
        }

        public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation)
        {
            if (LeaseIsLost)
            {
                throw new LeaseLostException();
            }

            foreach (var line in lines)
            {
                Add($"ledger {line.Kind}");
            }

            return default;
        }

        public ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation) => new([]);

        public ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
            string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation) => new([]);

        public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
        {
            foreach (var decision in decisions)
            {
                Add(decision switch
                {
                    AlertRaised raised => $"told {raised.Alert.Cause}",
                    PlantChanged changed => $"told plant {changed.Change.Next.Version}",
                    OutlookIssued issued => $"told outlook {issued.Outlook.Level}",
                    _ => "told",
                });
            }

            return default;
        }

        public ValueTask Use(PlantVersion plant) => Note($"use {plant.Version}");

        private ValueTask Note(string line)
        {
            Add(line);
            return default;
        }

        private void Add(string line)
        {
            lock (log)
            {
                log.Add(line);
            }
        }
    }
}
