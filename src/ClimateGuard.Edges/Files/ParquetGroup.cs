using Parquet;
using Parquet.Schema;

namespace ClimateGuard.Edges.Files;

/// <summary>The columns of one row group.</summary>
internal sealed class ParquetGroup
{
    private ParquetGroup(int count) => Count = count;

    public int Count { get; }

    public required DateTime?[] Times { get; init; }

    public required string?[] Sensors { get; init; }

    public required double?[] Values { get; init; }

    public required string?[] Units { get; init; }

    /// <summary>Null when the rows carry no judgement.</summary>
    public double?[]? Raws { get; init; }

    public string?[]? Trusts { get; init; }

    public string?[]? Reasons { get; init; }

    /// <summary>Whether the rows carry the judgement of a store.</summary>
    /// <exception cref="UnreadableFileException">A column is missing or of another type.</exception>
    public static bool IsJudged(string path, ParquetSchema schema)
    {
        string[] problems = [.. ParquetColumns.Schema.GetDataFields().Select(wanted => ProblemOf(schema, wanted)).OfType<string>()];
        string[] judgements = [ParquetColumns.Raw.Name, ParquetColumns.Trust.Name, ParquetColumns.Reason.Name];
        var missing = judgements.Count(name => Find(schema, name) is null);
        return problems.Length > 0 ? throw new UnreadableFileException($"{path}: {string.Join("; ", problems)}; as export writes them.")
            : missing is 0 or 3 ? missing == 0
            : throw new UnreadableFileException($"{path}: the columns raw, trust and reason belong together, as export writes them.");
    }

    public static async Task<ParquetGroup> ReadAsync(
        ParquetRowGroupReader group, ParquetSchema schema, bool judged, CancellationToken cancellation) => new((int)group.RowCount)
        {
            Times = await NumbersAsync<DateTime>(group, schema, ParquetColumns.Time, cancellation),
            Sensors = await TextsAsync(group, schema, ParquetColumns.Sensor, cancellation),
            Values = await NumbersAsync<double>(group, schema, ParquetColumns.Value, cancellation),
            Units = await TextsAsync(group, schema, ParquetColumns.Unit, cancellation),
            Raws = judged ? await NumbersAsync<double>(group, schema, ParquetColumns.Raw, cancellation) : null,
            Trusts = judged ? await TextsAsync(group, schema, ParquetColumns.Trust, cancellation) : null,
            Reasons = judged ? await TextsAsync(group, schema, ParquetColumns.Reason, cancellation) : null,
        };

    private static DataField? Find(ParquetSchema schema, string name) =>
        schema.GetDataFields().FirstOrDefault(field => field.Path.Length == 1 && field.Name == name);

    private static string? ProblemOf(ParquetSchema schema, DataField wanted)
    {
        var found = Find(schema, wanted.Name);
        var judgement = wanted.Name is "raw" or "trust" or "reason";
        return found is null ? judgement ? null : $"column {wanted.Name} is missing"
            : found.ClrType != wanted.ClrType || found.IsArray
                ? $"column {wanted.Name} is {found.ClrType.Name}; {(wanted is DateTimeDataField ? "a timestamp" : wanted.ClrType == typeof(double) ? "a double" : "a text")} is needed"
            : null;
    }

    private static async Task<T?[]> NumbersAsync<T>(
        ParquetRowGroupReader group, ParquetSchema schema, DataField wanted, CancellationToken cancellation)
        where T : struct
    {
        var field = Find(schema, wanted.Name)!;
        var nullable = new T?[group.RowCount];
        if (field.IsNullable)
        {
            await group.ReadAsync(field, nullable.AsMemory(), cancellationToken: cancellation);
            return nullable;
        }

        var plain = new T[group.RowCount];
        await group.ReadAsync(field, plain.AsMemory(), cancellationToken: cancellation);
        for (var i = 0; i < plain.Length; i++)
        {
            nullable[i] = plain[i];
        }

        return nullable;
    }

    private static async Task<string?[]> TextsAsync(
        ParquetRowGroupReader group, ParquetSchema schema, DataField wanted, CancellationToken cancellation)
    {
        var texts = new string?[group.RowCount];
        await group.ReadAsync(Find(schema, wanted.Name)!, texts.AsMemory()!, cancellationToken: cancellation);
        return texts;
    }
}
