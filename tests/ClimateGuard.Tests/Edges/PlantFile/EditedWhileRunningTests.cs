using ClimateGuard.Edges.PlantFile;

namespace ClimateGuard.Tests.Edges.PlantFile;

/// <summary>A plant file edited to nonsense, or to what needs a restart, is refused with the line to look at.</summary>
public sealed class EditedWhileRunningTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("plantfile").FullName;

    private string Plant => Path.Combine(folder, "plant.yaml");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("alpha: 10.9,", "alpha: 11.5e-6,", "1.15E-05 looks like a coefficient in 1/K")]
    [InlineData("alpha: 10.9,", "alpha: 1.15e-5,", "1.15E-05 looks like a coefficient in 1/K")]
    [InlineData("budgetUm: 18 ", "budgetUm: 0 ", "budget")]
    [InlineData("alpha: 10.9,", "alpha: 11500,", "alpha")]
    [InlineData("scale: { alpha: 10.5,", "scale: { alpha: 11500,", "alpha")]
    [InlineData("bandK: 1.0", "bandK: 0", "band")]
    [InlineData("heightM: 1.5", "heightM: high", "height")]
    [InlineData("cell: cell9", "cell: cell8", "restart")]
    [InlineData("timeZone: Europe/Vienna", "timeZone: Europe/Paris", "restart")]
    public void Nonsense_is_refused_with_its_line(string good, string bad, string named)
    {
        File.WriteAllText(Plant, ExamplePlant.Text);
        var running = PlantFileReader.Read(Plant).Cell!;
        var line = ExamplePlant.Text[..ExamplePlant.Text.IndexOf(good, StringComparison.Ordinal)].Count(letter => letter == '\n') + 1;

        File.WriteAllText(Plant, ExamplePlant.Text.Replace(good, bad, StringComparison.Ordinal));
        var read = PlantFileReader.Read(Plant, running);

        Assert.Null(read.Cell);
        var problem = Assert.Single(read.Problems);
        Assert.Equal(line, problem.Line);
        Assert.Contains(named, problem.Message, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void The_time_zone_left_out_is_utc_and_another_one_than_runs()
    {
        File.WriteAllText(Plant, ExamplePlant.Text);
        var running = PlantFileReader.Read(Plant).Cell!;
        File.WriteAllText(Plant, ExamplePlant.Text.Replace("timeZone: Europe/Vienna", "", StringComparison.Ordinal));

        Assert.Contains("UTC", Assert.Single(PlantFileReader.Read(Plant, running).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_fingerprint_is_the_version_and_tells_of_a_library_that_comes_beside_it()
    {
        File.WriteAllText(Plant, ExamplePlant.Text);
        var before = PlantFileReader.Fingerprint(Plant);
        Assert.Equal(PlantFileReader.Read(Plant).ConfigVersion, before);

        File.WriteAllText(Path.Combine(folder, "materials.yaml"), "materials: []\n");

        Assert.NotEqual(before, PlantFileReader.Fingerprint(Plant));
        Assert.Equal(PlantFileReader.Read(Plant).ConfigVersion, PlantFileReader.Fingerprint(Plant));
        File.Delete(Plant);
        Assert.StartsWith($"{Plant}: there is no file", PlantFileReader.Fingerprint(Plant), StringComparison.Ordinal);
    }
}
