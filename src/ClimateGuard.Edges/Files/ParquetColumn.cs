using Parquet;
using Parquet.Schema;

namespace ClimateGuard.Edges.Files;

/// <summary>One column of a row group; its memory is used again for the next row group.</summary>
/// <remarks>Texts come as slices of the dictionary of the file: rows of one word share its memory, so no text is made for a row.</remarks>
internal sealed class ParquetColumn<T>
    where T : struct, IEquatable<T>
{
    private T[] values = [];
    private int[] levels = [];
    private bool optional;

    /// <summary>The value of a row; the default where it has none.</summary>
    public ref readonly T this[int row] => ref values[row];

    /// <summary>Whether a row has a value.</summary>
    public bool Has(int row) => !optional || levels[row] > 0;

    public async ValueTask ReadAsync(ParquetRowGroupReader group, DataField field, CancellationToken cancellation)
    {
        var count = (int)group.RowCount;
        optional = field.IsNullable;
        values = values.Length >= count ? values : new T[count];
        levels = !optional || levels.Length >= count ? levels : new int[count];
        await group.ReadRawAsync(field, values.AsMemory(0, count), optional ? levels.AsMemory(0, count) : (Memory<int>?)null, null, cancellation);
        if (optional)
        {
            Spread(count);
        }
    }

    // The file packs the values there are; from the last row on each finds its place without overwriting one that is still to move.
    private void Spread(int count)
    {
        var packed = 0;
        for (var row = 0; row < count; row++)
        {
            packed += levels[row] > 0 ? 1 : 0;
        }

        for (var row = count - 1; row >= 0 && packed <= row; row--)
        {
            values[row] = levels[row] > 0 ? values[--packed] : default;
        }
    }
}
