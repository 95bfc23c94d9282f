using ClimateGuard.Edges.Files;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

/// <summary>What is exported and imported into an empty store is the same again, to the last bit and the last judgement.</summary>
public sealed class ReadingsRoundTrip
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly Cell Three = TemporaryStore.CellWith(3);

    private static readonly double[] Extremes =
        [double.Epsilon, -double.Epsilon, double.MaxValue, double.MinValue, 0.1 + 0.2, 1e22, 1e-7, 5e-324, 2.2250738585072014e-308, 0];

    private static readonly Gen<double> AnyValue = Gen.OneOf(
        Gen.Double[-1e3, 1e3], Gen.Double.Where(double.IsFinite), Gen.Int[0, Extremes.Length - 1].Select(n => Extremes[n]), Gen.Int[0, 9999].Select(n => n / 100.0));

    // Few moments, so that several rows share one.
    private static readonly Gen<TrustedReading> AnyRow =
        from sensor in Gen.Int[0, 2]
        from time in Gen.Int[0, 40]
        from raw in AnyValue
        from value in AnyValue
        from trust in Gen.Enum<Trust>()
        from reason in Gen.Enum<TrustReason>()
        select Row(new Reading(sensor, Begin.AddMilliseconds(time).ToUnixTimeMilliseconds(), raw), value, trust, reason);

    [Theory]
    [InlineData("csv")]
    [InlineData("csv.gz")]
    [InlineData("parquet")]
    public void Whatever_a_store_holds_comes_back_from_its_export(string ending) =>
        AnyRow.Array[0, 120].Sample(
            rows =>
            {
                using var first = new TemporaryStore();
                using var second = new TemporaryStore();
                var (once, again) = (first.FileOf("a." + ending), second.FileOf("a." + ending));
                var there = Filled(first, rows, once);
                var back = Imported(second, once, again);

                Assert.Equal(there, back);
                Assert.Equal(File.ReadAllBytes(once), File.ReadAllBytes(again));
            },
            iter: 60, threads: 1);

    private static TrustedReading Row(Reading raw, double value, Trust trust, TrustReason reason) => trust switch
    {
        Trust.Accepted => new(raw, raw.Value, trust, TrustReason.None),
        Trust.Corrected => new(raw, value, trust, reason == TrustReason.None ? TrustReason.Calibrated : reason),
        _ => new(raw, raw.Value, trust, reason == TrustReason.None ? TrustReason.Sentinel : reason),
    };

    private static List<StoredReading> Filled(TemporaryStore folder, TrustedReading[] rows, string export)
    {
        using var store = folder.OpenReadings(Three);
        store.AppendAsync(rows, CancellationToken.None).AsTask().GetAwaiter().GetResult();
        return Exported(store, export);
    }

    private static List<StoredReading> Imported(TemporaryStore folder, string file, string export)
    {
        using var store = folder.OpenReadings(Three);
        using var book = ImportBook.Open(folder.Folder)!;
        var result = new ReadingsImport(store, Three, book, TimeProvider.System).RunAsync(file, _ => { }, CancellationToken.None).GetAwaiter().GetResult();
        Assert.True(result.Done);
        return Exported(store, export);
    }

    private static List<StoredReading> Exported(IReadingStore store, string path)
    {
        new ReadingsExport { Path = path, Sensors = Three.Sensors, From = Begin, To = Begin.AddHours(1) }
            .WriteAsync(store, CancellationToken.None).GetAwaiter().GetResult();
        return [.. Three.Sensors.SelectMany(sensor => store.RowsAsync(sensor.Id, Begin, Begin.AddHours(1), CancellationToken.None).ToBlockingEnumerable()
            .OrderBy(row => (row.EpochMilliseconds, row.Trust == Trust.Quarantined, row.Raw, row.Reason)))];
    }
}
