namespace ClimateGuard.Enclosure;

/// <summary>What a zone did, as means of even steps of five minutes; a step without a value is a gap and stays one.</summary>
/// <remarks>Keeps the latest steps only and allocates nothing after it was made. Owned by one thread.</remarks>
public sealed class ZoneCourse
{
    /// <summary>The step in minutes.</summary>
    public const int StepMinutes = 5;

    /// <summary>Steps in a week.</summary>
    public const int StepsPerWeek = 7 * 24 * 60 / StepMinutes;

    internal const long StepMilliseconds = StepMinutes * 60_000L;
    private const int Columns = 8;
    private readonly int capacity;
    private readonly double[][] columns;
    private readonly Regime[] regimes;
    private readonly double[] sums = new double[Columns];
    private readonly int[] counts = new int[Columns];
    private Regime regime;
    private long lastMoment = long.MinValue;
    private int first;

    /// <summary>An empty course.</summary>
    /// <param name="capacity">How many steps are kept at least; from two weeks up, so that the week before is known.</param>
    public ZoneCourse(int capacity = 4 * StepsPerWeek)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 2 * StepsPerWeek);
        this.capacity = capacity;
        columns = [.. Enumerable.Range(0, Columns).Select(_ => new double[2 * capacity])];
        regimes = new Regime[2 * capacity];
    }

    /// <summary>How many whole steps are kept.</summary>
    public int Count { get; private set; }

    /// <summary>Moments that came out of order or twice; they were left out.</summary>
    public long LeftOut { get; private set; }

    /// <summary>Number of the last whole step, counted from 1970 in steps of five minutes.</summary>
    public long LastStep { get; private set; } = long.MinValue;

    /// <summary>Air, °C, oldest first.</summary>
    public ReadOnlySpan<double> Air => Of(0);

    /// <summary>Set point, °C.</summary>
    public ReadOnlySpan<double> Setpoint => Of(1);

    /// <summary>Supply air, °C.</summary>
    public ReadOnlySpan<double> Supply => Of(2);

    /// <summary>Air flow as a share of full flow.</summary>
    public ReadOnlySpan<double> Flow => Of(3);

    /// <summary>Hall, °C.</summary>
    public ReadOnlySpan<double> Hall => Of(4);

    /// <summary>Air of the next zone, °C.</summary>
    public ReadOnlySpan<double> NextZone => Of(5);

    /// <summary>Power of the machines, kW.</summary>
    public ReadOnlySpan<double> Load => Of(6);

    /// <summary>Share of doors open.</summary>
    public ReadOnlySpan<double> Door => Of(7);

    /// <summary>Regime of each step: the last one told in it.</summary>
    public ReadOnlySpan<Regime> Regimes => regimes.AsSpan(first, Count);

    /// <summary>The end of the last whole step.</summary>
    public DateTimeOffset At => DateTimeOffset.FromUnixTimeMilliseconds((LastStep + 1) * StepMilliseconds);

    /// <summary>Takes a moment; how many steps are whole by it (0 while the step goes on, more than 1 over a gap).</summary>
    public int Add(in ZoneMoment moment)
    {
        if (moment.EpochMilliseconds <= lastMoment)
        {
            LeftOut++;
            return 0;
        }

        var step = Math.DivRem(moment.EpochMilliseconds, StepMilliseconds).Quotient;
        var whole = lastMoment == long.MinValue ? 0 : Close(step);
        lastMoment = moment.EpochMilliseconds;
        Sum(0, moment.AirCelsius);
        Sum(1, moment.SetpointCelsius);
        Sum(2, moment.SupplyCelsius);
        Sum(3, moment.FlowShare);
        Sum(4, moment.HallCelsius);
        Sum(5, moment.NextZoneCelsius);
        Sum(6, moment.LoadKilowatts);
        Sum(7, moment.DoorOpen);
        regime = moment.Regime;
        return whole;
    }

    private int Close(long next)
    {
        var step = Math.DivRem(lastMoment, StepMilliseconds).Quotient;
        var gap = next - step;
        if (gap == 0) return 0;
        Push();
        for (var k = 1; k < Math.Min(gap, capacity); k++) Push();
        LastStep = next - 1;
        return (int)Math.Min(gap, capacity);
    }

    private void Push()
    {
        if (first + Count == 2 * capacity) Compact();
        var place = first + Count;
        for (var c = 0; c < Columns; c++)
        {
            columns[c][place] = counts[c] == 0 ? double.NaN : sums[c] / counts[c];
            (sums[c], counts[c]) = (0, 0);
        }

        regimes[place] = regime;
        regime = Regime.Unknown;
        if (Count == capacity) first++;
        else Count++;
    }

    private void Compact()
    {
        foreach (var column in columns) Array.Copy(column, first, column, 0, Count);
        Array.Copy(regimes, first, regimes, 0, Count);
        first = 0;
    }

    private void Sum(int column, double value)
    {
        if (double.IsNaN(value)) return;
        sums[column] += value;
        counts[column]++;
    }

    private ReadOnlySpan<double> Of(int column) => columns[column].AsSpan(first, Count);
}
