using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Benchmarks.HistoryYear;

/// <summary><c>history-year</c> and <c>history-append</c>: the whole history through the real store, beside a plain table in the same run.</summary>
internal static class HistoryBench
{
    private static readonly DateTimeOffset Begin = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    /// <summary>Fills a history and asks it for windows.</summary>
    public static async Task YearAsync(string[] args)
    {
        var (sensors, days, period, batchSize) = (Options.Whole(args, "--sensors", 33), Options.Whole(args, "--days", 365), Options.Whole(args, "--period", 10), Options.Whole(args, "--batch", 5_000));
        var rows = (long)sensors * days * 86_400 / period;
        using var folder = new BenchFolder();
        var load = new HistoryLoad(sensors, period, Begin);
        Say($"{sensors} sensors, {days} days, one reading in {period} s: {rows:N0} rows, batches of {batchSize:N0}, load average {LoadAverage()}");
        using (var store = Open(folder, load))
        {
            var (seconds, generating) = await FillAsync(store, load, rows, batchSize);
            Say($"append: {rows / seconds:N0} rows/s in the store ({seconds:N0} s; making the readings took {generating:N0} s more)");
            var watch = Stopwatch.StartNew();
            await store.PackAsync(None);
            Say($"packing the last loose rows: {watch.Elapsed.TotalMilliseconds:N0} ms");
        }

        var bytes = Directory.EnumerateFiles(folder.Path).Sum(file => new FileInfo(file).Length);
        Say($"on disk: {bytes / 1e6:N0} MB, {(double)bytes / rows:N2} bytes a row with all levels");
        var opening = Stopwatch.StartNew();
        using var again = Open(folder, load);
        await again.ReadAsync("s0", Begin.AddDays(days).AddHours(-8), Begin.AddDays(days), 1_000, None);
        Say($"open to the first chart served: {opening.Elapsed.TotalMilliseconds:N0} ms");
        await AskAsync(again, sensors, days);
        Ceiling(folder, load, Math.Min(rows, 2_000_000), batchSize);
    }

    /// <summary>Appends interleaved series as fast as the store takes them.</summary>
    public static async Task AppendAsync(string[] args)
    {
        foreach (var sensors in (ReadOnlySpan<int>)[33, 1_000, 10_000])
        {
            AppendOne(sensors, Options.Whole(args, "--rows", 5_000_000)).GetAwaiter().GetResult();
        }

        await Task.CompletedTask;
    }

    private static async Task AppendOne(int sensors, int rows)
    {
        foreach (var batchSize in new[] { 100, 1_000, 5_000 })
        {
            using var folder = new BenchFolder();
            var load = new HistoryLoad(sensors, 1, Begin);
            using var store = Open(folder, load);
            var (seconds, _) = await FillAsync(store, load, rows, batchSize);
            Say($"{sensors} series interleaved, batches of {batchSize}: {rows / seconds:N0} rows/s, load average {LoadAverage()}");
            if (batchSize == 1_000)
            {
                Ceiling(folder, load, Math.Min(rows, 1_000_000), batchSize);
            }
        }
    }

    private static SqliteReadings Open(BenchFolder folder, HistoryLoad load) =>
        SqliteReadings.Open(new SqliteStorage { Folder = folder.Path }, load.Cell, TimeProvider.System, NullLogger.Instance);

    private static async Task<(double Seconds, double Generating)> FillAsync(SqliteReadings store, HistoryLoad load, long rows, int batchSize)
    {
        var batch = new TrustedReading[batchSize];
        var (inStore, generating) = (new Stopwatch(), new Stopwatch());
        for (var at = 0L; at < rows; at += batchSize)
        {
            var part = batch.AsMemory(0, (int)Math.Min(batchSize, rows - at));
            generating.Start();
            load.Fill(part.Span, at);
            generating.Stop();
            inStore.Start();
            await store.AppendAsync(part, None);
            inStore.Stop();
        }

        inStore.Start();
        await store.PackAsync(None);
        return (inStore.Elapsed.TotalSeconds, generating.Elapsed.TotalSeconds);
    }

    private static async Task AskAsync(SqliteReadings store, int sensors, int days)
    {
        var random = new Random(7);
        foreach (var (name, length) in ((string, TimeSpan)[])
            [
                ("1 h", TimeSpan.FromHours(1)), ("8 h", TimeSpan.FromHours(8)), ("1 day", TimeSpan.FromDays(1)), ("7 days", TimeSpan.FromDays(7)),
                ("30 days", TimeSpan.FromDays(30)), ("90 days", TimeSpan.FromDays(90)), ("365 days", TimeSpan.FromDays(365)),
            ])
        {
            if (length > TimeSpan.FromDays(days))
            {
                continue;
            }

            var times = new List<double>();
            var most = 0;
            for (var n = 0; n < 200; n++)
            {
                var from = Begin + TimeSpan.FromSeconds(random.NextDouble() * (days - length.TotalDays) * 86_400);
                var watch = Stopwatch.StartNew();
                var points = await store.ReadAsync($"s{random.Next(sensors)}", from, from + length, random.Next(1_000, 2_001), None);
                times.Add(watch.Elapsed.TotalMilliseconds);
                most = Math.Max(most, points.Count);
            }

            times.Sort();
            Say($"| {name} | {times[100]:N1} | {times[190]:N1} | {times[^1]:N1} | {most} |");
        }
    }

    private static void Ceiling(BenchFolder folder, HistoryLoad load, long rows, int batchSize)
    {
        var path = Path.Combine(folder.Path, "plain.db");
        using var plain = new SqliteConnection($"Data Source={path};Pooling=False");
        plain.Open();
        foreach (var sql in (ReadOnlySpan<string>)
            [
                "PRAGMA journal_mode = WAL", "PRAGMA synchronous = NORMAL", "PRAGMA cache_size = -32768", "PRAGMA wal_autocheckpoint = 8000",
                "CREATE TABLE r(sensor INTEGER, t INTEGER, value REAL, PRIMARY KEY(sensor, t)) WITHOUT ROWID",
            ])
        {
            Do(plain, sql);
        }

        using var insert = new SqliteStatement(plain, "INSERT INTO r VALUES(?1, ?2, ?3)");
        var batch = new TrustedReading[batchSize];
        var watch = new Stopwatch();
        for (var at = 0L; at < rows; at += batchSize)
        {
            load.Fill(batch, at);
            watch.Start();
            Do(plain, "BEGIN");
            foreach (ref readonly var reading in batch.AsSpan())
            {
                insert.Bind(1, (long)reading.Raw.Sensor).Bind(2, reading.Raw.EpochMilliseconds).Bind(3, reading.Value).Run();
            }

            Do(plain, "COMMIT");
            watch.Stop();
        }

        Do(plain, "PRAGMA wal_checkpoint(TRUNCATE)");
        Say($"ceiling, plain table, bare prepared INSERT: {rows / watch.Elapsed.TotalSeconds:N0} rows/s, {(double)new FileInfo(path).Length / rows:N1} bytes a row");
        watch.Restart();
        using (var scan = new SqliteStatement(plain, "SELECT min(value), max(value), count(*) FROM r WHERE sensor = 0"))
        {
            scan.Next();
            Say($"ceiling, scan of one sensor of the plain table: {scan.Number(2) / watch.Elapsed.TotalSeconds / 1e6:N1} million rows/s");
            scan.Reset();
        }

        plain.Close();
        File.Delete(path);
    }

    private static void Do(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static string LoadAverage() => File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "not known";

    private static void Say(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));

    private sealed class BenchFolder : IDisposable
    {
        public string Path { get; } = System.IO.Path.Combine(System.IO.Path.GetTempPath(), "climateguard-bench-" + Guid.NewGuid().ToString("N"));

        public BenchFolder() => Directory.CreateDirectory(Path);

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
