using System.Buffers;
using System.Globalization;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The readings of a batch in the order in which they lie on disk: by sensor, then time, then arrival.</summary>
/// <remarks>Rows of one series are neighbours on disk; written in arrival order, 1 000 series touch a page for each row.
/// The array is rented: a batch costs no garbage. Dispose it once.</remarks>
internal readonly struct BatchOrder : IDisposable
{
    private static readonly long Least = DateTimeOffset.MinValue.ToUnixTimeMilliseconds();
    private static readonly long Greatest = DateTimeOffset.MaxValue.ToUnixTimeMilliseconds();

    private readonly Place[] rented;
    private readonly int count;

    /// <summary>Checks and sorts a batch.</summary>
    /// <param name="batch">The readings.</param>
    /// <param name="sensorRows">The row of each sensor, by its index in the cell.</param>
    /// <exception cref="ArgumentException">A reading names a sensor the cell has not, or carries no number.</exception>
    public BatchOrder(ReadOnlySpan<TrustedReading> batch, ReadOnlySpan<long> sensorRows)
    {
        Refuse(batch, sensorRows.Length);
        count = batch.Length;
        rented = ArrayPool<Place>.Shared.Rent(count);
        for (var i = 0; i < count; i++)
        {
            rented[i] = new Place(sensorRows[batch[i].Raw.Sensor], batch[i].EpochMilliseconds, i);
        }

        rented.AsSpan(0, count).Sort();
    }

    public ReadOnlySpan<Place> Places => rented.AsSpan(0, count);

    public void Dispose() => ArrayPool<Place>.Shared.Return(rented);

    private static void Refuse(ReadOnlySpan<TrustedReading> batch, int sensors)
    {
        for (var i = 0; i < batch.Length; i++)
        {
            ref readonly var reading = ref batch[i];
            if ((uint)reading.Raw.Sensor >= (uint)sensors)
            {
                throw new ArgumentException(string.Create(
                    CultureInfo.InvariantCulture,
                    $"Reading {i} of the batch is of sensor number {reading.Raw.Sensor}, and the cell has 0 to {sensors - 1}: the store must be told of a changed cell first. Nothing of the batch was written."),
                    nameof(batch));
            }

            if (reading.Raw.EpochMilliseconds < Least || reading.Raw.EpochMilliseconds > Greatest)
            {
                throw new ArgumentException(string.Create(
                    CultureInfo.InvariantCulture,
                    $"Reading {i} of the batch is of {reading.Raw.EpochMilliseconds} ms since 1970, and only the years 1 to 9999 are kept. Nothing of the batch was written."),
                    nameof(batch));
            }

            if (!double.IsFinite(reading.Value) || !double.IsFinite(reading.Raw.Value))
            {
                throw new ArgumentException(string.Create(
                    CultureInfo.InvariantCulture,
                    $"Reading {i} of the batch carries no finite number ({reading.Raw.Value}, in use {reading.Value}). Nothing of the batch was written."),
                    nameof(batch));
            }
        }
    }

    /// <summary>Where a reading belongs, and which of the batch it is.</summary>
    internal readonly record struct Place(long Row, long Time, int Index) : IComparable<Place>
    {
        public int CompareTo(Place other)
        {
            var order = Row.CompareTo(other.Row);
            order = order != 0 ? order : Time.CompareTo(other.Time);
            return order != 0 ? order : Index.CompareTo(other.Index);
        }
    }
}
