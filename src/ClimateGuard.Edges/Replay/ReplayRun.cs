using System.Diagnostics;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>The pipeline of <c>run</c> in event time from files: the same input gives the same bytes.</summary>
/// <remarks>
/// The machines are stepped each minute and at each event. What is written stands in <c>OUT.part</c> until it is whole; a replay that was
/// stopped goes on from <c>OUT.checkpoint</c>: the readings before are judged again, which is quick, and the machines go on with what they
/// remembered.
/// </remarks>
public sealed class ReplayRun : IDisposable
{
    private static readonly TimeSpan CheckpointEvery = TimeSpan.FromSeconds(5);

    private readonly ReplayQuestion question;
    private readonly ReplayInput input;
    private readonly EventTimeLoop loop;
    private readonly ReplayOutput output;
    private readonly ReplayCheckpoint? from;
    private readonly DateTimeOffset start;
    private readonly long[] lastOutlooks;
    private bool passing;
    private long keptAt = Stopwatch.GetTimestamp();

    private ReplayRun(ReplayQuestion question, ReplayInput input)
    {
        this.question = question;
        this.input = input;
        start = input.Start;
        loop = new EventTimeLoop(question.Cell, question.ConfigVersion, start);
        lastOutlooks = [.. question.Cell.Machines.Select(_ => long.MinValue)];
        (output, from) = ReplayOutput.Open(question.Out, input.Hash);
        passing = from is not null;
        from?.LastOutlooks.ToArray().CopyTo(lastOutlooks, 0);
    }

    /// <summary>Replays.</summary>
    /// <param name="question">What.</param>
    /// <param name="cancellation">Stops; the same replay goes on later.</param>
    /// <exception cref="UnreadableFileException">A file cannot be used; nothing was written.</exception>
    /// <exception cref="StoreUnavailableException">The output cannot be written.</exception>
    public static async Task<ReplayResult> RunAsync(ReplayQuestion question, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(question);
        using var input = await ReplayInput.ReadAsync(question, cancellation);
        return Run(question, input, cancellation);
    }

    /// <inheritdoc cref="RunAsync"/>
    internal static ReplayResult Run(ReplayQuestion question, ReplayInput input, CancellationToken cancellation)
    {
        try
        {
            using var run = new ReplayRun(question, input);
            return run.Replay(cancellation);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not StoreUnavailableException)
        {
            throw new StoreUnavailableException($"Cannot write {question.Out}: {fault.Message.TrimEnd('.')}. Name another file.", fault);
        }
    }

    /// <summary>Closes the output.</summary>
    public void Dispose() => output.Dispose();

    private ReplayResult Replay(CancellationToken cancellation)
    {
        var last = input.Span?.To ?? start;
        var moment = new ReplayCourse(input, question.Tick).Run(Take, Go, tick => AfterTick(tick, last), cancellation);
        var done = !cancellation.IsCancellationRequested;
        if (done)
        {
            output.Finish();
        }
        else if (!passing && moment > start)
        {
            Keep(moment);
        }

        return Result(done);
    }

    private ReplayResult Result(bool done) => new()
    {
        Readings = input.Count,
        WithoutValue = input.WithoutValue,
        Events = input.Events.Count,
        Lines = output.Lines,
        From = input.Span?.From,
        To = input.Span?.To,
        GoesOnAfter = from?.Moment,
        Done = done,
    };

    private bool Take(in Reading reading, bool live)
    {
        loop.Take(reading, live);
        return loop.Full;
    }

    private void Go(DateTimeOffset moment, CellEvent? happened)
    {
        if (passing)
        {
            loop.Pass(moment, happened);
            return;
        }

        var decisions = loop.Step(moment, happened);
        foreach (var decision in decisions)
        {
            if (ReplayLines.Of(decision) is { } line)
            {
                output.Write(line);
                Note(decision);
            }
        }

        question.Seen?.Invoke(moment, happened, decisions, loop);
    }

    private void Note(Decision decision)
    {
        if (decision is OutlookIssued issued)
        {
            lastOutlooks[IndexOf(issued.Outlook.Machine)] = issued.Time.ToUnixTimeMilliseconds();
        }
    }

    private int IndexOf(string machine)
    {
        for (var i = 0; i < question.Cell.Machines.Count; i++)
        {
            if (question.Cell.Machines[i].Id == machine)
            {
                return i;
            }
        }

        throw new ArgumentException($"No machine {machine} in the cell.", nameof(machine));
    }

    private void AfterTick(DateTimeOffset moment, DateTimeOffset last)
    {
        if (passing)
        {
            if (moment >= from!.Moment)
            {
                loop.GoOn(from.States()!);
                passing = false;
            }

            return;
        }

        WriteAtLeastEvery(moment);
        question.Progress("replaying", Math.Clamp((moment - start) / (last - start), 0, 1), output.Lines);
        if (Stopwatch.GetElapsedTime(keptAt) >= CheckpointEvery)
        {
            Keep(moment);
        }
    }

    private void WriteAtLeastEvery(DateTimeOffset moment)
    {
        if (question.Every is not { } every)
        {
            return;
        }

        var now = moment.ToUnixTimeMilliseconds();
        for (var i = 0; i < lastOutlooks.Length; i++)
        {
            if (lastOutlooks[i] == long.MinValue || now - lastOutlooks[i] >= every.TotalMilliseconds)
            {
                output.Write(ReplayLines.Of(moment, loop.Snapshot.Machines[i].Outlook));
                lastOutlooks[i] = now;
            }
        }
    }

    private void Keep(DateTimeOffset moment)
    {
        output.Keep((bytes, lines) => new ReplayCheckpoint(
            input.Hash, moment, bytes, lines, [.. loop.Remembered().Select(MachineStateJson.ExactText)], [.. lastOutlooks]));
        keptAt = Stopwatch.GetTimestamp();
    }
}
