using Parquet.Schema;

namespace ClimateGuard.Edges.Files;

/// <summary>The columns of a Parquet file of readings, as <c>export</c> writes them.</summary>
internal static class ParquetColumns
{
    public static DateTimeDataField Time { get; } =
        new("time", DateTimeFormat.Timestamp, isAdjustedToUTC: true, unit: DateTimeTimeUnit.Millis);

    public static DataField<string> Sensor { get; } = new("sensor", false);

    /// <summary>Null where the row was set aside, so that nobody takes it for good.</summary>
    public static DataField<double> Value { get; } = new("value", true);

    public static DataField<string> Unit { get; } = new("unit", false);

    public static DataField<double> Raw { get; } = new("raw", false);

    public static DataField<string> Trust { get; } = new("trust", false);

    /// <summary>Empty when there is nothing to say.</summary>
    public static DataField<string> Reason { get; } = new("reason", false);

    public static ParquetSchema Schema { get; } = new(Time, Sensor, Value, Unit, Raw, Trust, Reason);
}
