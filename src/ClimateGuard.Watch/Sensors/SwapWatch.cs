using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Notices that two temperature sensors were put back in each other's place.</summary>
/// <remarks>
/// Two sensors are swapped when both were steady, both stepped within the same few minutes, each now says what the other said before, and each that has
/// neighbours left them; for two minutes, and with levels far enough apart to be told apart. Two sensors that cross in value do not step; where the
/// room itself steps, the neighbours step too; two air handlers that take turns say nothing. Swapped sensors that say the same cannot be told until
/// they differ, and then only as outvoted. Sensors of one zone are not compared: a swap among them changes next to nothing. Common practice, no source.
/// </remarks>
internal sealed class SwapWatch(SensorRecord[] records, SwapWatch? before = null)
{
    private const int MinutesToBelieve = 2;
    private const double LeastGapKelvins = 0.6;
    private const double UncertaintiesApart = 6;
    private const double OwnMisfit = 0.7;
    private const double SwappedFit = 0.3;
    private const int MostSuspects = 64;
    private const int MinutesToRelease = 10;
    private const int MinutesOfOneEvent = 20;

    private readonly SensorRecord[] watched = [.. records.Where(r => r is { Minutes: not null })];
    private readonly List<Suspect> suspects = [];
    private readonly List<Pair> pairs = Kept(records, before);

    /// <summary>Looks at the last minutes.</summary>
    /// <param name="now">The minute since 1970 that has begun.</param>
    public void Run(int now)
    {
        var minute = now - NeighbourPass.Behind;
        suspects.Clear();
        foreach (var record in watched)
        {
            if (suspects.Count < MostSuspects && Suspect.Of(record, minute, OwnMisfit * LeastGapKelvins) is { } suspect)
            {
                suspects.Add(suspect);
            }
        }

        for (var i = 0; i < suspects.Count; i++)
        {
            for (var j = i + 1; j < suspects.Count; j++)
            {
                if (Exchanged(suspects[i], suspects[j]))
                {
                    Note(suspects[i].Record, suspects[j].Record, minute);
                }
            }
        }

        Settle(minute);
    }

    // What was believed of two sensors stays as long as both do; the partner of one that left begins anew.
    private static List<Pair> Kept(SensorRecord[] records, SwapWatch? before)
    {
        List<Pair> kept = [];
        foreach (var pair in before?.pairs ?? [])
        {
            if (records.Contains(pair.A) && records.Contains(pair.B))
            {
                kept.Add(pair);
            }
            else if (pair.IsSwapped)
            {
                pair.Release();
            }
        }

        return kept;
    }

    private static bool Exchanged(in Suspect a, in Suspect b)
    {
        if (a.Record.Level is not null && b.Record.Level is not null && a.Record.Sensor.Zone == b.Record.Sensor.Zone)
        {
            return false;
        }

        var gap = Math.Abs(a.Before - b.Before);
        return gap >= Math.Max(LeastGapKelvins, UncertaintiesApart * Math.Max(a.Record.Sensor.Uncertainty, b.Record.Sensor.Uncertainty))
            && (a.HasNeighbours || b.HasNeighbours || !(a.IsDriven || b.IsDriven))
            && !(Math.Abs(a.Departure) < OwnMisfit * gap)
            && !(Math.Abs(b.Departure) < OwnMisfit * gap)
            && Math.Abs(a.Says - b.Before) <= SwappedFit * gap
            && Math.Abs(b.Says - a.Before) <= SwappedFit * gap;
    }

    private void Note(SensorRecord a, SensorRecord b, int minute)
    {
        var pair = pairs.Find(known => known.A == a && known.B == b);
        if (pair is null)
        {
            pairs.Add(pair = new Pair(a, b));
        }

        var goesOn = pair.SeenAt == minute - 1;
        pair.Minutes = goesOn ? pair.Minutes + 1 : 1;
        pair.SeenAt = minute;
        if (pair.Minutes != MinutesToBelieve)
        {
            return;
        }

        if (!pair.IsSwapped)
        {
            pair.Mark(minute);
        }
        else if (minute - pair.SwappedAt > MinutesOfOneEvent)
        {
            // The same exchange once more: they are back.
            pair.Release();
        }
    }

    private void Settle(int minute)
    {
        for (var i = pairs.Count - 1; i >= 0; i--)
        {
            var pair = pairs[i];
            pair.FitAgain = pair.IsSwapped && pair.FitsItsNeighbours ? pair.FitAgain + 1 : 0;
            if (pair.FitAgain >= MinutesToRelease)
            {
                pair.Release();
            }

            if (!pair.IsSwapped && pair.SeenAt < minute - MinutesOfOneEvent)
            {
                pairs.RemoveAt(i);
            }
        }
    }

    private sealed class Pair(SensorRecord a, SensorRecord b)
    {
        private const double FitsKelvins = 0.3;

        public SensorRecord A { get; } = a;

        public SensorRecord B { get; } = b;

        public int SeenAt { get; set; }

        public int Minutes { get; set; }

        public int FitAgain { get; set; }

        public int SwappedAt { get; private set; }

        public bool IsSwapped => SwappedAt != 0 && A.SwappedWith == B;

        public bool FitsItsNeighbours => Fits(A) && Fits(B) && (A.Level is not null || B.Level is not null);

        public void Mark(int minute)
        {
            if (A.SwappedWith is null && B.SwappedWith is null)
            {
                (A.SwappedWith, B.SwappedWith, SwappedAt) = (B, A, minute);
            }
        }

        public void Release()
        {
            (A.SwappedWith, B.SwappedWith, SwappedAt, FitAgain) = (null, null, 0, 0);
            A.Spikes.Forget();
            B.Spikes.Forget();
        }

        private static bool Fits(SensorRecord record) => record.Level is not { } level || Math.Abs(level.Departure) <= FitsKelvins;
    }
}
