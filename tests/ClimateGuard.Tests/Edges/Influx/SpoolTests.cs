using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Influx;

public sealed class SpoolTests : IDisposable
{
    private const long Limit = 1 << 20;
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public void What_goes_in_comes_out_in_order_across_files_and_restarts() =>
        Gen.Int[0, 3].Array[1, 60].Sample(steps =>
        {
            var folder = Path.Combine(place.Folder, Guid.NewGuid().ToString("N"));
            var spool = Spool.Open(folder, Limit, place);
            var (put, got) = (new List<string>(), new List<string>());
            foreach (var step in steps)
            {
                switch (step)
                {
                    case 0 when spool.Take() is { } take:
                        got.AddRange(take.Payloads.Select(TextOf));
                        spool.Done(take);
                        break;
                    case 1:
                        spool.Dispose();
                        spool = Spool.Open(folder, Limit, place);
                        break;
                    default:
                        var size = step == 2 ? 10 : 100_000;
                        if (spool.TryAppend(PayloadOf(put.Count, size), Now))
                        {
                            put.Add($"{put.Count}");
                        }

                        break;
                }

                Assert.Equal(put.Count - got.Count, spool.State.Batches);
                Assert.InRange(spool.State.Bytes, 0, Limit);
            }

            for (; spool.Take() is { } rest; spool.Done(rest))
            {
                got.AddRange(rest.Payloads.Select(TextOf));
            }

            Assert.Equal(put, got);
            Assert.True(spool.IsEmpty);
            Assert.Empty(Directory.GetFiles(folder, "*.spool"));
            spool.Dispose();
        }, threads: 1, iter: 40);

    [Fact]
    public void What_was_taken_and_not_done_with_is_offered_again_after_a_restart()
    {
        using (var spool = Spool.Open(place.Folder, Limit, place))
        {
            spool.TryAppend(PayloadOf(0, 10), Now);
            spool.TryAppend(PayloadOf(1, 10), Now.AddSeconds(1));
            Assert.Equal(2, spool.Take()!.Payloads.Count);
        }

        using var again = Spool.Open(place.Folder, Limit, place);
        Assert.Equal(["0", "1"], again.Take()!.Payloads.Select(TextOf));
        Assert.Equal(Now, again.State.Oldest);
    }

    [Fact]
    public void A_full_spool_takes_nothing_until_a_file_is_done_with()
    {
        using var spool = Spool.Open(place.Folder, Limit, place);
        var count = 0;
        while (spool.TryAppend(PayloadOf(count, 50_000), Now))
        {
            count++;
        }

        Assert.Equal((int)(Limit / (50_013 + SpoolFormat.HeaderBytes)), count);
        spool.Done(spool.Take()!);
        Assert.True(spool.TryAppend(PayloadOf(count, 50_000), Now));
    }

    [Fact]
    public void A_note_of_the_position_that_is_broken_offers_the_file_from_its_begin()
    {
        using (var spool = Spool.Open(place.Folder, Limit, place))
        {
            for (var n = 0; n < 3; n++)
            {
                spool.TryAppend(PayloadOf(n, 200_000), Now);
            }

            spool.Done(spool.Take()!);
        }

        using (var kept = Spool.Open(place.Folder, Limit, place))
        {
            Assert.NotEqual("0", TextOf(kept.Take()!.Payloads[0]));
        }

        File.WriteAllText(Path.Combine(place.Folder, "position"), "x");
        using var again = Spool.Open(place.Folder, Limit, place);
        Assert.NotNull(again.Take());
    }

    [Fact]
    public void A_folder_that_is_a_file_is_named_with_what_to_do()
    {
        Directory.CreateDirectory(place.Folder);
        var file = Path.Combine(place.Folder, "spool");
        File.WriteAllText(file, "");
        var fault = Assert.Throws<StoreUnavailableException>(() => Spool.Open(file, Limit, place));
        Assert.Contains("this is a file", fault.Message, StringComparison.Ordinal);
    }

    private static byte[] PayloadOf(int number, int size)
    {
        // As a real one begins: shape, time of spooling.
        var payload = new byte[size + 13];
        SpoolPayload.Of(Now.AddSeconds(number), [], []).AsSpan(0, 9).CopyTo(payload);
        BitConverter.TryWriteBytes(payload.AsSpan(9), number);
        return payload;
    }

    private static string TextOf(byte[] payload) => $"{BitConverter.ToInt32(payload, 9)}";
}
