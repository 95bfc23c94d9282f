using Parquet;
using Parquet.Schema;

namespace ClimateGuard.Edges.Files;

/// <summary>The columns of one row group; its memory is used again for the next one.</summary>
internal sealed class ParquetGroup
{
    public int Count { get; private set; }

    public ParquetColumn<DateTime> Times { get; } = new();

    public ParquetColumn<ReadOnlyMemory<char>> Sensors { get; } = new();

    public ParquetColumn<double> Values { get; } = new();

    public ParquetColumn<ReadOnlyMemory<char>> Units { get; } = new();

    /// <summary>Whether the rows carry a judgement; else the columns that follow are empty.</summary>
    public bool Judged { get; private set; }

    public ParquetColumn<double> Raws { get; } = new();

    public ParquetColumn<ReadOnlyMemory<char>> Trusts { get; } = new();

    public ParquetColumn<ReadOnlyMemory<char>> Reasons { get; } = new();

    /// <summary>Whether rows may carry the stamp as sent, where it is not the time.</summary>
    public bool Stamped { get; private set; }

    public ParquetColumn<DateTime> Stamps { get; } = new();

    /// <summary>Whether the rows carry the judgement of a store.</summary>
    /// <exception cref="UnreadableFileException">A column is missing or of another type.</exception>
    public static bool IsJudged(string path, ParquetSchema schema)
    {
        string[] judgements = [ParquetColumns.Raw.Name, ParquetColumns.Trust.Name, ParquetColumns.Reason.Name];
        var missing = judgements.Count(name => Find(schema, name) is null);
        // A stamp means something only beside a judgement; elsewhere it is one more column of somebody else.
        string[] problems = [.. ParquetColumns.Schema.GetDataFields()
            .Where(wanted => missing == 0 || wanted != ParquetColumns.Stamp).Select(wanted => ProblemOf(schema, wanted)).OfType<string>()];
        return problems.Length > 0 ? throw new UnreadableFileException($"{path}: {string.Join("; ", problems)}; as export writes them.")
            : missing is 0 or 3 ? missing == 0
            : throw new UnreadableFileException($"{path}: the columns raw, trust and reason belong together, as export writes them.");
    }

    public async Task ReadAsync(ParquetRowGroupReader group, ParquetSchema schema, bool judged, CancellationToken cancellation)
    {
        ValueTask Read<T>(ParquetColumn<T> column, DataField wanted)
            where T : struct, IEquatable<T> => column.ReadAsync(group, Find(schema, wanted.Name)!, cancellation);
        Count = (int)group.RowCount;
        Judged = judged;
        Stamped = judged && Find(schema, ParquetColumns.Stamp.Name) is not null;
        await Read(Times, ParquetColumns.Time);
        await Read(Sensors, ParquetColumns.Sensor);
        await Read(Values, ParquetColumns.Value);
        await Read(Units, ParquetColumns.Unit);
        if (judged)
        {
            await Read(Raws, ParquetColumns.Raw);
            await Read(Trusts, ParquetColumns.Trust);
            await Read(Reasons, ParquetColumns.Reason);
        }

        if (Stamped)
        {
            await Read(Stamps, ParquetColumns.Stamp);
        }
    }

    private static DataField? Find(ParquetSchema schema, string name) =>
        schema.GetDataFields().FirstOrDefault(field => field.Path.Length == 1 && field.Name == name);

    private static string? ProblemOf(ParquetSchema schema, DataField wanted)
    {
        var found = Find(schema, wanted.Name);
        var optional = wanted.Name is "raw" or "trust" or "reason" or "stamp";
        return found is null ? optional ? null : $"column {wanted.Name} is missing"
            : found.ClrType != wanted.ClrType || found.IsArray
                ? $"column {wanted.Name} is {found.ClrType.Name}; {(wanted is DateTimeDataField ? "a timestamp" : wanted.ClrType == typeof(double) ? "a double" : "a text")} is needed"
            : null;
    }
}
