using System.Diagnostics;
using System.Globalization;

namespace ClimateGuard.Worker.Commands;

/// <summary>How far a verb is, on standard error: a bar in place where it is a terminal, else a line every ten seconds.</summary>
internal sealed class ProgressLine : IDisposable
{
    private const int Width = 30;

    private static readonly TimeSpan RedrawEvery = TimeSpan.FromMilliseconds(200);
    private static readonly TimeSpan LineEvery = TimeSpan.FromSeconds(10);

    private readonly bool terminal = !Console.IsErrorRedirected;
    private readonly string what;
    private readonly long begin = Stopwatch.GetTimestamp();
    private long shownAt = Stopwatch.GetTimestamp();
    private bool drawn;

    /// <param name="what">What is worked on, such as the file.</param>
    public ProgressLine(string what) => this.what = what;

    /// <summary>Shows how far it is, when it is time to.</summary>
    /// <param name="doing">What is done.</param>
    /// <param name="share">In [0, 1].</param>
    /// <param name="rows">Rows so far.</param>
    public void Show(string doing, double share, long rows)
    {
        if (Stopwatch.GetElapsedTime(shownAt) < (terminal ? RedrawEvery : LineEvery))
        {
            return;
        }

        shownAt = Stopwatch.GetTimestamp();
        var text = Text(what, doing, share, rows, Stopwatch.GetElapsedTime(begin));
        if (terminal)
        {
            drawn = true;
            Console.Error.Write($"\r{Bar(share)} {text}\u001b[K");
        }
        else
        {
            Console.Error.WriteLine(text);
        }
    }

    /// <summary>Takes the bar away, so that the result stands on a line of its own.</summary>
    public void Dispose()
    {
        if (drawn)
        {
            Console.Error.Write("\r\u001b[K");
        }
    }

    /// <summary>The words beside the bar.</summary>
    internal static string Text(string what, string doing, double share, long rows, TimeSpan elapsed)
    {
        var pace = rows / Math.Max(elapsed.TotalSeconds, 1e-3);
        var left = share is > 0.005 and < 1 ? $", {Rest(elapsed * ((1 / share) - 1))} left" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{what}: {doing}, {share * 100:0} %, {rows} rows, {pace:0} rows/s{left}");
    }

    private static string Bar(double share)
    {
        var full = (int)(Math.Clamp(share, 0, 1) * Width);
        return $"[{new string('#', full)}{new string('-', Width - full)}]";
    }

    private static string Rest(TimeSpan time) => time.TotalHours >= 1
        ? string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours} h {time.Minutes} min")
        : time.TotalMinutes >= 1 ? $"{time.Minutes} min {time.Seconds} s" : $"{time.Seconds} s";
}
