namespace ClimateGuard.Edges.Influx;

/// <summary>What a reading is beside what InfluxDB has at its moment.</summary>
internal enum Standing
{
    /// <summary>Nothing is there yet.</summary>
    First,

    /// <summary>The same value is there: a second delivery.</summary>
    Again,

    /// <summary>Another value is there.</summary>
    Duplicate,
}

/// <summary>Knows the first value of each (sensor, event time), which wins; InfluxDB itself would keep the last.</summary>
/// <remarks>
/// Of each sensor the newest moments are remembered, all of them from a floor on, so that a reading that is new, or a little late, needs no
/// question. Before the floor InfluxDB must be asked; <see cref="MustAsk"/> tells which. The floor moves only between batches. Whoever writes
/// to the same series beside this process is not seen. Not safe across threads.
/// </remarks>
internal sealed class FirstValues
{
    private const int Remembered = 256;

    private readonly Dictionary<string, Moments> sensors = [];
    private readonly Dictionary<(string Sensor, long Time), double> before = [];
    private readonly List<Moments> grown = [];
    private string? lastSensor;
    private Moments? last;

    /// <summary>Whether the newest moment of each sensor was asked for.</summary>
    public bool Known { get; private set; }

    /// <summary>Begins with what InfluxDB has.</summary>
    /// <param name="newest">The newest event time of each sensor that has any, in ms since 1970.</param>
    public void Learn(IEnumerable<(string Sensor, long Time)> newest)
    {
        Forget();
        foreach (var (sensor, time) in newest)
        {
            sensors[sensor] = new Moments { Floor = Math.Max(time + 1, sensors.GetValueOrDefault(sensor)?.Floor ?? long.MinValue) };
        }

        Known = true;
    }

    /// <summary>A write failed: what is there is not known any more.</summary>
    public void Forget()
    {
        Known = false;
        sensors.Clear();
        before.Clear();
        grown.Clear();
        (lastSensor, last) = (null, null);
    }

    /// <summary>Whether InfluxDB must be asked what it has at this moment.</summary>
    public bool MustAsk(string sensor, long time) => time < Of(sensor).Floor;

    /// <summary>What InfluxDB has at a moment it was asked for.</summary>
    public void Tell(string sensor, long time, double raw) => before[(sensor, time)] = raw;

    /// <summary>Takes a reading of the batch, in order; the first of its moment is remembered.</summary>
    public Standing Take(string sensor, long time, double raw)
    {
        var moments = Of(sensor);
        if (time >= moments.Floor)
        {
            return Judge(moments.FindOrAdd(time, raw, grown), raw);
        }

        var known = before.TryGetValue((sensor, time), out var first);
        if (!known)
        {
            before.Add((sensor, time), raw);
        }

        return Judge(known ? first : null, raw);
    }

    /// <summary>The batch is written: forgets what is old.</summary>
    public void Settle()
    {
        before.Clear();
        foreach (var moments in grown)
        {
            moments.Trim();
        }

        grown.Clear();
    }

    private static Standing Judge(double? first, double raw) =>
        first is not { } there ? Standing.First : there == raw ? Standing.Again : Standing.Duplicate;

    private Moments Of(string sensor)
    {
        if (ReferenceEquals(sensor, lastSensor))
        {
            return last!;
        }

        if (!sensors.TryGetValue(sensor, out var moments))
        {
            sensors.Add(sensor, moments = new Moments());
        }

        (lastSensor, last) = (sensor, moments);
        return moments;
    }

    /// <summary>The moments of one sensor from a floor on, in time order.</summary>
    private sealed class Moments
    {
        private readonly List<long> times = [];
        private readonly List<double> raws = [];

        public long Floor { get; set; } = long.MinValue;

        /// <summary>The raw value of a moment, or null when it is new and now remembered.</summary>
        public double? FindOrAdd(long time, double raw, List<Moments> grown)
        {
            var place = times.Count == 0 || time > times[^1] ? ~times.Count : times.BinarySearch(time);
            if (place >= 0)
            {
                return raws[place];
            }

            times.Insert(~place, time);
            raws.Insert(~place, raw);
            if (times.Count == (2 * Remembered) + 1)
            {
                grown.Add(this);
            }

            return null;
        }

        public void Trim()
        {
            var old = times.Count - Remembered;
            Floor = times[old - 1] + 1;
            times.RemoveRange(0, old);
            raws.RemoveRange(0, old);
        }
    }
}
