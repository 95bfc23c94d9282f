using System.Globalization;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.Files;

/// <summary>From a plant file and readings as an outsider writes them to the JSON of diagnose.</summary>
public sealed class DiagnosisFilesTests : IDisposable
{
    private const string Plant = """
        version: 1
        cell: c
        zones: [ { id: main, airHandlers: [u] } ]
        sensors:
          - { id: u/sat, place: supply, airHandler: u, unit: F, periodS: 60 }
          - { id: u/rat, place: return, airHandler: u, unit: F, periodS: 60 }
          - { id: u/clg, quantity: fraction, place: command, airHandler: u, periodS: 60 }
          - { id: u/fan, quantity: contact, place: command, airHandler: u, periodS: 60 }
        airHandlers:
          - { id: u, points: { coolingCommand: u/clg, fanStatus: u/fan } }
        """;

    private readonly string file = Path.GetTempFileName();

    public void Dispose() => File.Delete(file);

    [Fact]
    public void A_leak_is_told_with_its_day_part_onset_and_check_and_supply_and_return_are_found_by_their_place()
    {
        // 70 °F return; the fan adds 1 °F; on the third day the closed valve leaks by 6 °F from 10:00 on
        Write(day => minute => day == 2 && minute >= 600 ? 65 : 71);
        var finding = Diagnosed().GetProperty("findings").EnumerateArray().First(f => f.GetProperty("probability").GetDouble() >= 0.5);

        Assert.Equal("2026-03-04", finding.GetProperty("day").GetString());
        Assert.Equal("u", finding.GetProperty("airHandler").GetString());
        Assert.Equal("cooling coil valve", finding.GetProperty("component").GetString());
        Assert.StartsWith("2026-03-04T10", finding.GetProperty("onset").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(finding.GetProperty("evidence").EnumerateArray());
        Assert.False(string.IsNullOrWhiteSpace(finding.GetProperty("firstCheck").GetString()));
        Assert.Equal(JsonValueKind.Array, finding.GetProperty("missing").ValueKind);
    }

    [Fact]
    public void Sound_days_have_no_finding_and_none_of_these_for_each()
    {
        Write(_ => _ => 71);
        var result = Diagnosed();

        Assert.DoesNotContain(result.GetProperty("findings").EnumerateArray(), f => f.GetProperty("probability").GetDouble() >= 0.5);
        Assert.Equal(3, result.GetProperty("noneOfThese").GetArrayLength());
    }

    [Fact]
    public void A_bad_row_is_passed_over_and_told_and_a_file_of_bad_rows_is_refused()
    {
        Write(_ => _ => 71);
        File.AppendAllText(file, "2026-03-02T00:00:00Z,u/sat,#VALUE!,F\n");
        var (_, notes) = ReadingsFrame.Read(file, Cell());
        Assert.Contains(notes, note => note.Contains("#VALUE!", StringComparison.Ordinal));

        File.WriteAllText(file, "time,sensor,value,unit\n2026-03-02T00:00:00Z,u/nobody,1,F\n");
        Assert.Contains("u/nobody", Assert.Throws<UnreadableFileException>(() => ReadingsFrame.Read(file, Cell())).Message, StringComparison.Ordinal);
    }

    private void Write(Func<int, Func<int, double>> supply)
    {
        var text = new StringBuilder("time,sensor,value,unit\n");
        for (var minute = 0; minute < 3 * 1440; minute++)
        {
            var time = new DateTime(2026, 3, 2, 0, 0, 0, DateTimeKind.Utc).AddMinutes(minute).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
            text.Append(CultureInfo.InvariantCulture, $"{time},u/sat,{supply(minute / 1440)(minute % 1440)},F\n{time},u/rat,70,F\n{time},u/clg,0,\n{time},u/fan,1,\n");
        }

        File.WriteAllText(file, text.ToString());
    }

    private JsonElement Diagnosed()
    {
        var (frame, _) = ReadingsFrame.Read(file, Cell());
        return JsonDocument.Parse(DiagnosisJson.Text(Diagnosis.Of(frame, Cell(), new DiagnosisOptions { ByDay = true }))).RootElement;
    }

    private static Cell Cell()
    {
        var read = PlantFileReader.Parse("plant.yaml", Plant);
        return read.Cell ?? throw new InvalidOperationException(string.Join("; ", read.Problems));
    }
}
