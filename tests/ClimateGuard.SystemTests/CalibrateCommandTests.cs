using System.Globalization;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary><c>climateguard calibrate</c> as its user types it.</summary>
public sealed class CalibrateCommandTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 1, 10, 6, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-calibrate-").FullName;

    private string Readings => Path.Combine(folder, "block.csv");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_entries_for_the_plant_file_are_printed_and_the_json_has_the_same_numbers()
    {
        Write(perHour: 0);
        var (exitCode, output, errors) = await RunAsync("--block-celsius", "20");
        Assert.Equal((0, ""), (exitCode, errors));
        Assert.Contains("air/n1:", output, StringComparison.Ordinal);
        Assert.Contains("- { from: 2026-01-10T07:00:00Z, offset: 0.120, uncertainty: 0.020 }", output, StringComparison.Ordinal);

        var said = JsonSerializer.Deserialize<JsonElement>((await RunAsync("--block-celsius", "20", "--json")).Output);
        Assert.Equal(-0.07, said.GetProperty("sensors")[1].GetProperty("offset").GetDouble(), 0.001);
    }

    [Fact]
    public async Task A_block_that_moves_and_a_reference_nobody_knows_are_refused_with_one_line()
    {
        Write(perHour: 1);
        var (exitCode, output, errors) = await RunAsync();
        Assert.Equal((2, ""), (exitCode, output));
        Assert.Contains("the block is not settled", Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);

        Assert.Contains("did you mean air/n1", (await RunAsync("--reference", "air/nn1")).Errors, StringComparison.Ordinal);
    }

    private Task<(int ExitCode, string Output, string Errors)> RunAsync(params string[] more) => WorkerProcess.RunToEndAsync(
        ["calibrate", "--plant", Path.Combine(WorkerProcess.Repository, "config", "plant.yaml"), "--readings", Readings, .. more]);

    private void Write(double perHour) => File.WriteAllLines(
        Readings,
        Enumerable.Range(0, 360).SelectMany(n => new[] { ("air/n1", 0.12), ("air/n2", -0.07) }.Select(probe => string.Create(
            CultureInfo.InvariantCulture,
            $"{Begin.AddSeconds(10 * n):yyyy-MM-dd'T'HH:mm:ss'Z'},{probe.Item1},{20 + probe.Item2 + (perHour * n / 360) + (n % 2 == 0 ? 0.01 : -0.01):0.000},C")))
            .Prepend("time,sensor,value,unit"));
}
