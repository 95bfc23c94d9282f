namespace ClimateGuard.Edges.Sqlite;

/// <summary>The part of the history that is not packed yet, as this process knows it, and up to where each sensor is packed.</summary>
/// <remarks>
/// The log on disk is the truth; this is read from it at the start and again whenever another process wrote. The appending thread, the packing
/// thread and readers share it: everything here is done under <see cref="Gate"/>, which is held for microseconds, or for one commit.
/// </remarks>
internal sealed class LooseMemory
{
    private long[] packedUpTo = [];
    private LooseRows? spare;

    public Lock Gate { get; } = new();

    /// <summary>What comes in.</summary>
    public LooseRows Coming { get; private set; } = new();

    /// <summary>What is being packed, or null.</summary>
    public LooseRows? Packing { get; private set; }

    /// <summary>Number of the newest batch known.</summary>
    public long Logged { get; private set; }

    /// <summary>Number of the newest batch known to be packed.</summary>
    public long Packed { get; private set; }

    /// <summary>Readings before this moment are refused: the raw readings of their months were cleared. In ms since 1970.</summary>
    public long RawFloor { get; set; } = long.MinValue;

    /// <summary>Begins to pack what came in, unless packing is under way already; what could not be packed comes again.</summary>
    public LooseRows? BeginPacking()
    {
        lock (Gate)
        {
            if (Packing is null && Coming.Count > 0)
            {
                (Packing, Coming, spare) = (Coming, spare ?? new LooseRows(), null);
                Packing.Through = Logged;
            }

            return Packing;
        }
    }

    /// <summary>What was being packed now lies in the months.</summary>
    public void EndPacking(LooseRows packed)
    {
        if (Packing != packed)
        {
            return;
        }

        foreach (var (sensor, rows) in packed.All)
        {
            NotePacked(sensor, rows.Times[^1]);
        }

        (Packing, Packed) = (null, packed.Through);
        // Its room serves again: a burst costs no garbage.
        packed.Clear();
        spare = packed;
    }

    /// <summary>A batch was committed.</summary>
    public void Add(ReadOnlySpan<(long Sensor, HistoryRow Row)> batch, long logged, long now)
    {
        foreach (ref readonly var item in batch)
        {
            Coming.Add(item.Sensor, in item.Row, now);
        }

        Logged = logged;
        Coming.Through = logged;
    }

    /// <summary>Forgets everything, to be read from the log anew.</summary>
    public LooseRows Restart(long logged, long packed)
    {
        (Coming, Packing, Logged, Packed) = (new LooseRows { Through = logged }, null, logged, packed);
        packedUpTo = [];
        return Coming;
    }

    /// <summary>A sensor has packed rows up to here, or farther.</summary>
    public void NotePacked(long sensor, long time)
    {
        if (sensor >= packedUpTo.Length)
        {
            var known = packedUpTo.Length;
            Array.Resize(ref packedUpTo, (int)Math.Max(sensor + 1, known * 2L));
            packedUpTo.AsSpan(known).Fill(long.MinValue);
        }

        packedUpTo[sensor] = Math.Max(packedUpTo[sensor], time);
    }

    /// <summary>Whether a packed row may hold this moment.</summary>
    public bool MayBePacked(long sensor, long time) => sensor < packedUpTo.Length && time <= packedUpTo[sensor];

    /// <summary>The raw value of a moment that is not packed, or null.</summary>
    public double? RawOf(long sensor, long time) => RawIn(Coming, sensor, time) ?? RawIn(Packing, sensor, time);

    /// <summary>Appends the rows of a window, [from, to), in time order.</summary>
    public void Copy(long sensor, long from, long to, RowBuffer found)
    {
        var (packing, coming) = (Packing?.Of(sensor), Coming.Of(sensor));
        if (packing is null || coming is null)
        {
            if ((packing ?? coming) is { } only)
            {
                found.Append(only, only.FirstAt(from), only.FirstAt(to));
            }

            return;
        }

        var part = new RowBuffer();
        part.Append(packing, packing.FirstAt(from), packing.FirstAt(to));
        found.Merge(part, coming, coming.FirstAt(from), coming.FirstAt(to));
    }

    private static double? RawIn(LooseRows? rows, long sensor, long time) =>
        rows?.Of(sensor) is { } some && some.Find(time) is >= 0 and var place ? some.Raws[place] : null;
}
