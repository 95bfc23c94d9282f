using ClimateGuard.Edges.PlantFile;

namespace ClimateGuard.Tests.Edges.PlantFile;

public sealed class PlantFileOnDiskTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("plantfile").FullName;

    private string Plant => Path.Combine(folder, "plant.yaml");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_missing_file_is_one_clear_problem()
    {
        var result = PlantFileReader.Read(Plant);
        var problem = Assert.Single(result.Problems);
        Assert.StartsWith($"there is no file {Plant}", problem.Message, StringComparison.Ordinal);
        Assert.Equal((0, ""), (problem.Line, result.ConfigVersion));
    }

    [Fact]
    public void A_folder_is_not_a_plant_file()
    {
        var problem = Assert.Single(PlantFileReader.Read(folder).Problems);
        Assert.StartsWith("the file cannot be read", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_too_big_is_not_read()
    {
        File.WriteAllText(Plant, "a: " + new string('x', 5 * 1024 * 1024));
        var problem = Assert.Single(PlantFileReader.Read(Plant).Problems);
        Assert.Equal("the file has 5242883 bytes; allowed: at most 5 MB; is this the right file?", problem.Message);
    }

    [Fact]
    public void A_file_that_is_not_utf8_is_told_where_it_ceases_to_be()
    {
        File.WriteAllBytes(Plant, [.. "version: 1\nname: Gr"u8, 0xFC, .. "n\n"u8]);
        var problem = Assert.Single(PlantFileReader.Read(Plant).Problems);
        Assert.Equal((2, 9), (problem.Line, problem.Column));
        Assert.Contains("UTF-8", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Windows_line_ends_and_a_byte_order_mark_are_read()
    {
        File.WriteAllBytes(Plant, [0xEF, 0xBB, 0xBF, .. System.Text.Encoding.UTF8.GetBytes(ExamplePlant.Text.Replace("\n", "\r\n", StringComparison.Ordinal))]);
        Assert.Equal([], PlantFileReader.Read(Plant).Problems);
    }

    [Fact]
    public void A_material_library_beside_the_plant_file_replaces_the_shipped_one()
    {
        File.WriteAllText(Plant, ExamplePlant.With("material: special-iron", "material: our-steel"));
        var without = PlantFileReader.Read(Plant);
        Assert.Contains("material 'our-steel' is unknown", Assert.Single(without.Problems).Message, StringComparison.Ordinal);

        File.WriteAllText(
            Path.Combine(folder, "materials.yaml"),
            "materials:\n  - { id: our-steel, alpha: 11.1, conductivity: 45, density: 7850, specificHeat: 475, source: mill certificate }\n");
        var with = PlantFileReader.Read(Plant);
        Assert.Equal([], with.Problems);
        Assert.Equal((11.1, "mill certificate"), (with.Cell!.Parts[0].Material.AlphaMicrometresPerMetreKelvin, with.Cell.Parts[0].Material.Source));
        Assert.Equal(["our-steel", "special-iron"], with.Cell.Description.Materials.Select(m => m.Id));
        Assert.NotEqual(without.ConfigVersion, with.ConfigVersion);
    }

    [Fact]
    public void A_mistake_in_the_library_beside_is_told_in_that_file()
    {
        var library = Path.Combine(folder, "materials.yaml");
        File.WriteAllText(Plant, ExamplePlant.Text);
        File.WriteAllText(library, "materials:\n  - id: a\n    alpha: 11\n    conductivty: 45\n    density: 7850\n    specificHeat: 475\n");
        var problems = PlantFileReader.Read(Plant).Problems;
        Assert.Equal([(library, 2), (library, 4)], problems.Select(p => (p.File, p.Line)));
        Assert.Contains("did you mean conductivity?", problems[1].Message, StringComparison.Ordinal);
    }
}
