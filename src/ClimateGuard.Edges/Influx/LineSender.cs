namespace ClimateGuard.Edges.Influx;

/// <summary>Sends lines in requests of bounded size, and finds the one that InfluxDB will never take, so that it does not hold up the rest.</summary>
internal sealed class LineSender(InfluxSettings settings, InfluxWriter writer, RefusedPoints refused)
{
    private const int MostLines = 5_000;

    /// <summary>So many requests may be refused, none taken, before everything counts as refused.</summary>
    private const int MostRefusals = 64;

    // A point of these kinds is refused whatever stands beside it.
    private static readonly string[] HopelessPoint = ["beyond retention", "unable to parse"];

    // InfluxDB speaks of points; anything else that it refuses concerns the whole request.
    private static readonly string[] NamesPoints = [.. HopelessPoint, "partial write", "field type conflict", "too large"];

    /// <summary>Sends all lines of a batch; when it returns InfluxDB has each, or it stands among the refused.</summary>
    /// <exception cref="InfluxFaultException">InfluxDB does not take them; with the fault Refused: none of them.</exception>
    public async Task SendAsync(LineBatch lines, CancellationToken cancellation)
    {
        var waiting = new Queue<(int From, int To)>();
        for (var from = 0; from < lines.Count; from += MostLines)
        {
            waiting.Enqueue((from, Math.Min(lines.Count, from + MostLines)));
        }

        var (taken, refusals) = (0, 0);
        List<(int Line, InfluxFaultException Why)> alone = [];
        while (waiting.TryDequeue(out var part))
        {
            try
            {
                await writer.SendAsync(lines.Text(part.From, part.To), cancellation);
                taken += part.To - part.From;
            }
            catch (InfluxFaultException fault) when (fault.Fault == InfluxFault.Refused)
            {
                if (taken == 0 && ++refusals > MostRefusals && !Names(NamesPoints, fault))
                {
                    throw;
                }

                // Halves wait behind larger parts, so that one good half is found early.
                if (part.To - part.From == 1)
                {
                    alone.Add((part.From, fault));
                    continue;
                }

                var middle = (part.From + part.To) / 2;
                waiting.Enqueue((part.From, middle));
                waiting.Enqueue((middle, part.To));
            }
        }

        SetAside(lines, alone, taken);
    }

    private void SetAside(LineBatch lines, List<(int Line, InfluxFaultException Why)> alone, int taken)
    {
        if (alone.Count == 0)
        {
            return;
        }

        // When nothing at all was taken the trouble is hardly in the points: a person must look, and everything stays in the spool.
        if (taken == 0 && alone.Find(one => !Names(HopelessPoint, one.Why)).Why is { } why)
        {
            throw why;
        }

        if (refused.IsFull)
        {
            throw InfluxFaultException.Of(settings, 400, $"{alone[0].Why.Text}; {refused.Path} is full of such points: find the cause and move that file away");
        }

        refused.Add([.. alone.Select(one => (lines.Text(one.Line, one.Line + 1), one.Why.Text))]);
    }

    private static bool Names(string[] words, InfluxFaultException fault) =>
        words.Any(word => fault.Text.Contains(word, StringComparison.OrdinalIgnoreCase));
}
