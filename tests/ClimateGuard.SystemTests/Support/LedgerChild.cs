using System.Globalization;
using System.Runtime.CompilerServices;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.Support;

/// <summary>
/// This test program started again as a process that writes a ledger, to be killed or stopped from outside. It begins before the test runner
/// does, so that a round takes a fraction of a second.
/// </summary>
public sealed class LedgerChild : ChildProcess
{
    public const string CellId = "cell1";

    private const string Role = "CLIMATEGUARD_TEST_CHILD";

    private LedgerChild(string part)
        : base(Role, part)
    {
    }

    /// <summary>Appends to <c>ledger.db</c> for ever, and prints the number of the last line after each commit.</summary>
    public static LedgerChild AppendSqlite(string folder) => new($"sqlite {folder}");

    /// <summary>The same with a file of JSON lines.</summary>
    public static LedgerChild AppendJsonLines(string file) => new($"jsonlines {file}");

    /// <summary>Asks for the lease with a term of 1 s, appends while it has it, sleeps over its end now and then, and begins again.</summary>
    public static LedgerChild Contend(string folder) => new($"contend {folder}");

    /// <summary>Appends readings of s0 for ever, packs whenever a few hundred are loose, and prints how many are committed.</summary>
    public static LedgerChild AppendHistory(string folder) => new($"history {folder}");

    /// <summary>Opens a history, which moves one of the release before, and prints a line before and after.</summary>
    public static LedgerChild MoveHistory(string folder) => new($"move {folder}");

    /// <summary>The history that <see cref="AppendHistory"/> writes.</summary>
    public static SqliteReadings OpenHistory(string folder) => SqliteReadings.Open(
        new SqliteStorage { Folder = folder, LooseReadings = 500 },
        new Cell(new CellDescription
        {
            Id = CellId,
            Name = CellId,
            Zones = [new Zone { Id = "z" }],
            Sensors = [new Sensor { Id = "s0", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air }],
        }),
        TimeProvider.System,
        NullLogger.Instance);

    /// <summary>Event time of a reading by its number: an hour is a few hundred, so that months pass while a test runs.</summary>
    public static long TimeOf(long number) => 1_770_000_000_000 + (number * 9_999);

    [ModuleInitializer]
    internal static void Begin()
    {
        if (Environment.GetEnvironmentVariable(Role) is not { } role)
        {
            return;
        }

        var space = role.IndexOf(' ', StringComparison.Ordinal);
        var place = role[(space + 1)..];
        switch (role[..space])
        {
            case "sqlite":
                Append(SqliteLedger.Open(new SqliteStorage { Folder = place }, CellId, TimeProvider.System, NullLogger.Instance));
                break;
            case "jsonlines":
                Append(JsonLinesLedger.Open(place, CellId, NullLogger.Instance));
                break;
            case "history":
                AppendHistoryForEver(place);
                break;
            case "move":
                Console.Out.WriteLine("opening");
                OpenHistory(place);
                Console.Out.WriteLine("moved");
                Thread.Sleep(Timeout.Infinite);
                break;
            default:
                ContendForEver(SqliteLedger.Open(new SqliteStorage { Folder = place }, CellId, TimeProvider.System, NullLogger.Instance));
                break;
        }
    }

    private static void AppendHistoryForEver(string folder)
    {
        var readings = OpenHistory(folder);
        var batch = new TrustedReading[97];
        for (var number = readings.Health().Rows; ; number += batch.Length)
        {
            for (var n = 0; n < batch.Length; n++)
            {
                var value = (number + n) / 10.0;
                batch[n] = new TrustedReading(new Reading(0, TimeOf(number + n), value), value, Trust.Accepted, TrustReason.None);
            }

            readings.AppendAsync(batch, CancellationToken.None).AsTask().GetAwaiter().GetResult();
            Console.Out.WriteLine((number + batch.Length).ToString(CultureInfo.InvariantCulture));
        }
    }

    private static void Append(ILedgerStore ledger)
    {
        for (var n = 0; ; n++)
        {
            LedgerLine[] lines = [.. Enumerable.Range(0, (n % 5) + 1).Select(i => Line("answer", $"{{\"n\":{n},\"of\":{i},\"text\":\"{new string('x', 500)}\"}}"))];
            ledger.AppendAsync(lines, CancellationToken.None).AsTask().GetAwaiter().GetResult();
            var newest = ledger.NewestAsync(null, null, 1, CancellationToken.None).AsTask().GetAwaiter().GetResult();
            Console.Out.WriteLine(newest[0].Seq.ToString(CultureInfo.InvariantCulture));
        }
    }

    private static void ContendForEver(SqliteLedger ledger)
    {
        using var lease = ledger.OpenLease(TimeProvider.System);
        var term = TimeSpan.FromSeconds(1);
        while (true)
        {
            if (lease.TryAcquire(LeaseOwner.Here, term, DateTimeOffset.UtcNow).Token is not { } token)
            {
                Thread.Sleep(10);
                continue;
            }

            ledger.WriteWith(token);
            try
            {
                for (var n = 0; ; n++)
                {
                    ledger.AppendAsync([Line("answer", $"{{\"token\":{token}}}")], CancellationToken.None).AsTask().GetAwaiter().GetResult();
                    Thread.Sleep(n == 20 ? 1_300 : 2);
                }
            }
            catch (LeaseLostException)
            {
                Console.Out.WriteLine($"lost {token}");
            }
        }
    }

    private static LedgerLine Line(string kind, string json) => new(DateTimeOffset.UtcNow, kind, "M1", json);
}
