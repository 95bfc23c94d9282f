using System.Globalization;
using System.IO.Compression;
using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Files;

/// <summary>A file of readings is read as it was meant, or refused with its line and what is allowed.</summary>
public sealed class ReadingsFileReaderTests : IDisposable
{
    private const string Head = "time,sensor,value,unit\n";
    private readonly string path = Path.Combine(Path.GetTempPath(), $"climateguard-test-{Guid.NewGuid():N}.csv");

    private static readonly Cell Small = SmallCell.Of();

    public void Dispose() => File.Delete(path);

    [Fact]
    public void Rows_come_as_they_stand_whatever_their_order()
    {
        var rows = Read(Head + "2026-01-10T08:00:10Z,air/a1,20.137,C\n2026-01-10T09:00:00.250+01:00,hall,-3,C\n");

        Assert.Equal([(0, 1768032010000, 20.137), (7, 1768032000250, -3.0)], rows.Select(row => (row.Raw.Sensor, row.Raw.EpochMilliseconds, row.Value)));
        Assert.All(rows, row => Assert.Equal((Trust.Accepted, row.Raw.Value), (row.Trust, row.Value)));
    }

    // 68 °F = 20 °C and 293.15 K = 20 °C by definition (NIST SP 811, B.8).
    [Theory]
    [InlineData("68,F")]
    [InlineData("293.15,K")]
    [InlineData("20,C")]
    [InlineData("20,°C")]
    [InlineData("20,")]
    [InlineData(" 20 , C ")]
    [InlineData("\"20\",\"C\"")]
    [InlineData("2e1,C")]
    public void A_unit_is_converted(string valueAndUnit) =>
        Assert.Equal(20, Assert.Single(Read($"{Head}2026-01-10T08:00:00Z,air/a1,{valueAndUnit}\n")).Value, 12);

    // RFC 4180 names CR LF, an optional last line end, quotes around fields and doubled quotes inside them.
    [Theory]
    [InlineData("time,sensor,value,unit\r\n2026-01-10T08:00:00Z,air/a1,20,C\r\n")]
    [InlineData("time,sensor,value,unit\n2026-01-10T08:00:00Z,air/a1,20,C")]
    [InlineData("\uFEFFtime,sensor,value,unit\n2026-01-10T08:00:00Z,air/a1,20,C\n")]
    [InlineData("\"time\",\"sensor\",\"value\",\"unit\"\n\"2026-01-10T08:00:00Z\",\"air/a1\",\"20\",\"C\"\n")]
    [InlineData("unit,note,value,SENSOR,Time\nC,\"a \"\"good\"\", one\",20,air/a1,2026-01-10T08:00:00Z\n")]
    [InlineData("time,sensor,value,unit\n\n2026-01-10T08:00:00Z,air/a1,20,C\n\n")]
    [InlineData("time,sensor,value,unit,\n2026-01-10T08:00:00Z,air/a1,20,C,\n")]
    public void The_forms_that_programs_write_mean_the_same(string text) =>
        Assert.Equal((0, 1768032000000, 20.0), Read(text).Select(row => (row.Raw.Sensor, row.Raw.EpochMilliseconds, row.Value)).Single());

    [Theory]
    [InlineData("time;sensor;value;unit\n2026-01-10T08:00:00Z;air/a1;20,137;C\n", ":1: the columns are separated by semicolons or tabs")]
    [InlineData("time,sensor,value\n", ":1: column unit is missing")]
    [InlineData("time,sensor,value,unit,value\n", ":1: column value stands there twice")]
    [InlineData("time,sensor,value,unit,raw\n", ":1: the columns raw, trust and reason belong together")]
    [InlineData("", "the file is empty")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,20,137,C\n", ":2: 5 fields under 4 columns; is there a decimal comma?")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,\"20,137\",C\n", ":2: value is \"20,137\" (a decimal comma?); a number with a decimal point")]
    [InlineData(Head + "\n2026-01-10 08:00:00,air/a1,20,C\n", ":3: time is \"2026-01-10 08:00:00\"; a time with its offset")]
    [InlineData(Head + "1970-01-01T00:00:00Z,air/a1,20,C\n", ":2: time is \"1970-01-01T00:00:00Z\"; a time between 2000 and 2100")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a11,20,C\n", ":2: sensor \"air/a11\" is not in the plant file; did you mean air/a1")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,20,Pa\n", ":2: unit is \"Pa\"; for air/a1, a sensor of quantity Temperature, C, F, K, °C, °F are allowed")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,warm,C\n", ":2: value is \"warm\"; a number with a decimal point is allowed, such as 20.137")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,NaN,C\n", ":2: value is \"NaN\"")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,1e999,C\n", ":2: value is \"1e999\": the value is not a finite number")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,1,234.5,C\n", "is there a decimal comma?")]
    [InlineData(Head + "2026-01-10T08:00:00Z,air/a1,20\n", ":2: 3 fields under 4 columns")]
    [InlineData(Head + "2026-01-10T08:00:00Z,\"air/a1,20,C\n", ":2: a quote is not closed on its line")]
    public void What_cannot_be_told_is_refused_with_its_line_and_what_is_allowed(string text, string expected)
    {
        var refused = Assert.Throws<UnreadableFileException>(() => Read(text));

        Assert.StartsWith(path, refused.Message, StringComparison.Ordinal);
        Assert.Contains(expected, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_without_a_value_is_counted_and_passed_over()
    {
        File.WriteAllText(path, Head + "2026-01-10T08:00:00Z,air/a1,,C\n2026-01-10T08:00:10Z,air/a1,20,C\n");
        using var reader = ReadingsFileReader.Open(path, Small);

        Assert.True(reader.Read(out var row));
        Assert.Equal(20, row.Value);
        Assert.False(reader.Read(out _));
        Assert.Equal(1, reader.WithoutValue);
    }

    [Fact]
    public void A_bad_row_can_be_passed_over_by_who_asks_for_it()
    {
        File.WriteAllText(path, Head + "yesterday,air/a1,19,C\n2026-01-10T08:00:10Z,air/a1,20,C\n");
        using var reader = ReadingsFileReader.Open(path, Small);

        Assert.True(reader.Read(out _, out var problem));
        Assert.Contains(":2: time is", problem!, StringComparison.Ordinal);
        Assert.True(reader.Read(out var row, out var none));
        Assert.Null(none);
        Assert.Equal(20, row.Value);
    }

    [Fact]
    public void Rows_with_the_judgement_of_a_store_keep_it()
    {
        var rows = Read("time,sensor,value,unit,raw,trust,reason\n"
            + "2026-01-10T08:00:00Z,air/a1,20.1,C,20.4,corrected,calibrated\n2026-01-10T08:00:10Z,air/a1,,C,85,quarantined,sentinel\n");

        Assert.Equal([(20.4, 20.1, Trust.Corrected, TrustReason.Calibrated), (85, 85, Trust.Quarantined, TrustReason.Sentinel)],
            rows.Select(row => (row.Raw.Value, row.Value, row.Trust, row.Reason)));
    }

    [Theory]
    [InlineData("20,C,20,believed,", "trust is \"believed\"; accepted, corrected, quarantined are allowed")]
    [InlineData("20,C,20,corrected,moon", "reason is \"moon\"; nothing or calibrated, outOfRange")]
    [InlineData(",C,85,quarantined,", "a quarantined row needs its reason")]
    [InlineData(",C,,quarantined,sentinel", "a quarantined row needs its raw value")]
    [InlineData("85,C,85,quarantined,sentinel", "so that nobody takes it for good")]
    [InlineData(",C,85,accepted,", "a row that is accepted needs its value")]
    public void A_judgement_that_does_not_hold_together_is_refused(string fields, string expected) => Assert.Contains(
        expected,
        Assert.Throws<UnreadableFileException>(() => Read($"time,sensor,value,unit,raw,trust,reason\n2026-01-10T08:00:00Z,air/a1,{fields}\n")).Message,
        StringComparison.Ordinal);

    [Fact]
    public void A_gzip_file_is_known_by_its_first_bytes_and_may_have_several_members()
    {
        var packed = (byte[])[.. Packed(Head + Rows(0, 30_000)), .. Packed(Rows(30_000, 20_000))];
        File.WriteAllBytes(path, packed);

        Assert.Equal(Enumerable.Range(0, 50_000).Select(n => n / 1000.0), ReadFile().Select(row => row.Value));
    }

    [Fact]
    public void A_gzip_file_that_was_cut_off_is_refused_and_not_taken_as_short()
    {
        var packed = Packed(Head + Rows(0, 30_000));
        File.WriteAllBytes(path, packed[..(packed.Length / 2)]);

        Assert.Contains("the file is damaged after line", Assert.Throws<UnreadableFileException>(ReadFile).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_without_end_is_refused_before_memory_is_full()
    {
        File.WriteAllText(path, Head + new string('9', 300_000));

        Assert.Contains(":2: the line is longer than 65536 bytes", Assert.Throws<UnreadableFileException>(ReadFile).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_text_in_utf_16_is_named_as_such()
    {
        File.WriteAllText(path, Head, Encoding.Unicode);

        Assert.Contains("UTF-16", Assert.Throws<UnreadableFileException>(ReadFile).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_is_named() =>
        Assert.Equal($"{path}: there is no such file.", Assert.Throws<UnreadableFileException>(ReadFile).Message);

    [Fact]
    public void A_row_costs_no_memory()
    {
        File.WriteAllText(path, Head + Rows(0, 60_000));
        using var reader = ReadingsFileReader.Open(path, Small);
        reader.Read(out _);
        var before = GC.GetAllocatedBytesForCurrentThread();
        while (reader.Read(out _))
        {
            // Only what reading costs is of interest.
        }

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 10_000);
    }

    private static string Rows(int first, int count) => string.Concat(Enumerable.Range(first, count).Select(n =>
        string.Create(CultureInfo.InvariantCulture, $"2026-01-10T08:{n / 60 % 60:00}:{n % 60:00}Z,air/a{(n % 3) + 1},{n / 1000.0},C\n")));

    private static byte[] Packed(string text)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Fastest))
        {
            gzip.Write(Encoding.UTF8.GetBytes(text));
        }

        return packed.ToArray();
    }

    private List<TrustedReading> Read(string text)
    {
        File.WriteAllText(path, text);
        return ReadFile();
    }

    private List<TrustedReading> ReadFile()
    {
        using var reader = ReadingsFileReader.Open(path, Small);
        var rows = new List<TrustedReading>();
        while (reader.Read(out var row))
        {
            rows.Add(row);
        }

        return rows;
    }
}
