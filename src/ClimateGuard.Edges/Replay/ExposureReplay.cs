using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>What parts were exposed to over a span too long for an outlook each minute: temperatures are followed, an outlook is made before each cut.</summary>
internal static class ExposureReplay
{
    /// <summary>Replays.</summary>
    /// <param name="question">What; nothing is written for it.</param>
    /// <param name="input">Its readings and events.</param>
    /// <param name="cancellation">Stops.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Exposures Run(ReplayQuestion question, ReplayInput input, CancellationToken cancellation)
    {
        var loop = new ExposureLoop(question.Cell, question.ConfigVersion, input.Start);
        var (last, end) = (DateTimeOffset.MinValue, input.Span?.To ?? input.Start);
        void Step(DateTimeOffset moment, CellEvent? happened) => loop.Step(last = moment, happened);
        bool Take(in Reading reading, bool live)
        {
            loop.Take(reading, live);
            return loop.Full;
        }

        new ReplayCourse(input, question.Tick).Run(
            Take, Step, tick => question.Progress("replaying", Math.Clamp((tick - input.Start) / (end - input.Start), 0, 1), input.Count), cancellation);
        var exposures = loop.Finish(last);
        cancellation.ThrowIfCancellationRequested();
        return exposures;
    }
}
