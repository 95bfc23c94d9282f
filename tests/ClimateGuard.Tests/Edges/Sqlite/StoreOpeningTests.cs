using System.Diagnostics;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class StoreOpeningTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public void The_folder_is_made_and_both_files_lie_in_it()
    {
        using var readings = place.OpenReadings(TemporaryStore.CellWith(1));
        using var ledger = place.OpenLedger();

        Assert.True(readings.Opening.Created);
        Assert.Equal(new StoreOpening(place.LedgerPath, true, null, StoreCheck.Whole), ledger.Opening);
        Assert.True(File.Exists(place.ReadingsPath) && File.Exists(place.LedgerPath));
        Assert.Empty(place.Complaints);
    }

    [Fact]
    public void A_path_that_is_a_file_is_refused_with_what_to_do()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(place.Folder)!);
        File.WriteAllText(place.Folder, "mine");

        var fault = Assert.Throws<StoreUnavailableException>(() => place.OpenReadings(TemporaryStore.CellWith(1)));

        Assert.Contains("this is a file, and Storage:Path must name a folder", fault.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing was lost", fault.Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(place.Folder));
    }

    [Theory]
    [InlineData("", 0)]
    [InlineData("x", 0)]
    [InlineData("x", 1_000_001)]
    public void Settings_outside_their_ranges_are_refused(string folder, int kept) =>
        Assert.ThrowsAny<ArgumentException>(() => place.OpenReadings(
            TemporaryStore.CellWith(1), new SqliteStorage { Folder = folder, UnreadableKept = kept }));

    [Theory]
    [InlineData(0)]
    [InlineData(4_096)]
    public async Task A_damaged_file_is_set_aside_and_reported_and_a_fresh_one_started(int where)
    {
        await FillAsync(2_000);
        await using (var file = File.OpenWrite(place.ReadingsPath))
        {
            // Page 1 holds the header; from page 2 on the trees.
            file.Position = where;
            file.Write(Enumerable.Repeat((byte)0x5a, 3 * 4_096).ToArray());
        }

        var damaged = await File.ReadAllBytesAsync(place.ReadingsPath, None);
        using var readings = place.OpenReadings(TemporaryStore.CellWith(1));
        await readings.AppendAsync(new[] { At(0, 1) }, None);

        var aside = Path.Combine(place.Folder, "readings.db.damaged-20260302T060000Z");
        Assert.Equal(new StoreOpening(place.ReadingsPath, true, aside, StoreCheck.Whole), readings.Opening);
        Assert.Equal(damaged, await File.ReadAllBytesAsync(aside, None));
        Assert.Contains(aside, Assert.Single(place.Complaints), StringComparison.Ordinal);
        Assert.Equal(1, readings.Health().Rows);
    }

    [Fact]
    public void A_second_damaged_file_of_the_same_second_does_not_cover_the_first()
    {
        Directory.CreateDirectory(place.Folder);
        for (var n = 0; n < 2; n++)
        {
            File.WriteAllText(place.LedgerPath, new string((char)('a' + n), 10_000));
            using var ledger = place.OpenLedger();
            Assert.NotNull(ledger.Opening.SetAside);
        }

        Assert.Equal('a', File.ReadAllText(place.LedgerPath + ".damaged-20260302T060000Z")[0]);
        Assert.Equal('b', File.ReadAllText(place.LedgerPath + ".damaged-20260302T060000Z-2")[0]);
    }

    [Fact]
    public async Task The_check_at_start_ends_with_its_time_and_says_that_it_was_partial()
    {
        using (var filled = place.OpenReadings(TemporaryStore.CellWith(1)))
        {
            await filled.AppendAsync(
                Enumerable.Range(0, 200_000).Select(n => At(n, n) with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange }).ToArray(), None);
        }

        using var readings = place.OpenReadings(
            TemporaryStore.CellWith(1), place.Storage with { CheckAtMost = TimeSpan.FromMilliseconds(1) });
        Assert.Equal(StoreCheck.Partial, readings.Opening.Check);
        Assert.Equal(200_000, readings.Health().Quarantined);
    }

    [Fact]
    public async Task A_file_of_a_newer_release_is_neither_used_nor_set_aside()
    {
        await FillAsync(1);
        using (var other = new SqliteConnection($"Data Source={place.ReadingsPath};Pooling=False"))
        {
            other.Open();
            using var command = other.CreateCommand();
            command.CommandText = "PRAGMA user_version = 99";
            command.ExecuteNonQuery();
        }

        Assert.Throws<StoreUnavailableException>(() => place.OpenReadings(TemporaryStore.CellWith(1)));
        Assert.Equal(["readings.db"], Directory.GetFiles(place.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_full_disk_is_said_and_the_store_goes_on_when_there_is_room_again()
    {
        using var disk = SmallDisk(place.Folder, "size=1m");
        using var readings = place.OpenReadings(TemporaryStore.CellWith(1));
        var ballast = Path.Combine(place.Folder, "ballast");
        await readings.AppendAsync(new[] { At(0, 1) }, None);
        await File.WriteAllBytesAsync(ballast, new byte[(int)readings.Health().FreeBytes! - 65_536], None);

        var batch = Enumerable.Range(1, 50_000).Select(n => At(n, n)).ToArray();
        var fault = await Assert.ThrowsAsync<StoreUnavailableException>(async () => await readings.AppendAsync(batch, None));
        Assert.Contains("the disk is full", fault.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing was lost", fault.Message, StringComparison.Ordinal);
        Assert.Equal(1, readings.Health().Rows);

        File.Delete(ballast);
        await readings.AppendAsync(batch.AsMemory(0, 1_000), None);
        Assert.Equal(1_001, (await readings.ReadAsync("s0", Begin, Begin.AddDays(1), 2_000, None)).Count);
    }

    [Fact]
    public void A_disk_that_is_full_from_the_start_is_said()
    {
        using var disk = SmallDisk(place.Folder, "size=16k");
        var fault = Assert.Throws<StoreUnavailableException>(() => place.OpenReadings(TemporaryStore.CellWith(1)));
        Assert.Contains("the disk is full", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_read_only_disk_is_said()
    {
        using var disk = SmallDisk(place.Folder, "size=1m,ro");
        var fault = Assert.Throws<StoreUnavailableException>(() => place.OpenReadings(TemporaryStore.CellWith(1)));
        Assert.Contains("read-only or may not be opened", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(13, "the disk is full")]
    [InlineData(8, "read-only")]
    [InlineData(14, "read-only")]
    [InlineData(5, "another program holds it")]
    [InlineData(11, "the file is damaged")]
    [InlineData(26, "the file is damaged")]
    [InlineData(10, "the disk reports an error")]
    [InlineData(1, "SQLite says")]
    public void Each_failure_of_the_file_is_put_into_words(int code, string words)
    {
        var fault = SqliteFault.Explain(new SqliteException("x", code), "write the history", "/tmp/readings.db", "All is kept.");
        Assert.StartsWith("Cannot write the history in /tmp/readings.db: ", fault.Message, StringComparison.Ordinal);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
        Assert.EndsWith("All is kept.", fault.Message, StringComparison.Ordinal);
    }

    private static TrustedReading At(long milliseconds, double value) => new(
        new Reading(0, Begin.ToUnixTimeMilliseconds() + milliseconds, value), value, Trust.Accepted, TrustReason.None);

    /// <summary>A disk of its own that can be filled; only root can have one, so elsewhere the test is skipped.</summary>
    private static MountedDisk SmallDisk(string folder, string options)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess, "needs Linux and root for a small disk");
        Directory.CreateDirectory(folder);
        Assert.SkipUnless(Run("mount", "-t", "tmpfs", "-o", options, "none", folder) == 0, "this machine lets nobody mount");
        return new MountedDisk(folder);
    }

    private static int Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode;
    }

    private async Task FillAsync(int rows)
    {
        using var readings = place.OpenReadings(TemporaryStore.CellWith(1));
        await readings.AppendAsync(Enumerable.Range(0, rows).Select(n => At(n, n + 0.5)).ToArray(), None);
    }

    private sealed class MountedDisk(string folder) : IDisposable
    {
        public void Dispose() => Run("umount", folder);
    }
}
