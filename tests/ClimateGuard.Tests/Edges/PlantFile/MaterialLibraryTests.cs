using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class MaterialLibraryTests
{
    // expansion coefficients in µm/(m K): Callister app. B and the other sources named in config/materials.yaml
    // two handbooks commonly differ by up to 1.0 for one alloy, hence the tolerance
    [Theory]
    [InlineData("steel-1018", 11.7)]
    [InlineData("steel-1010", 12.2)]
    [InlineData("steel-asme-group-1", 12.06)]
    [InlineData("steel-4140", 12.3)]
    [InlineData("steel-42crmo4", 12.3)] // the like AISI 4140
    [InlineData("steel-4340", 12.3)]
    [InlineData("steel-34crnimo6", 12.3)] // the like AISI 4340
    [InlineData("stainless-304", 17.2)]
    [InlineData("stainless-316", 15.9)]
    [InlineData("stainless-316l", 15.9)]
    [InlineData("stainless-17-4ph", 10.8)]
    [InlineData("grey-iron-g3000", 11.4)]
    [InlineData("grey-iron-gjl", 11.4)]
    [InlineData("ductile-iron-60-40-18", 11.2)]
    [InlineData("ductile-iron", 11.2)]
    [InlineData("aluminium-6061", 23.6)]
    [InlineData("aluminium-7075", 23.4)]
    [InlineData("aluminium-2024", 22.9)]
    [InlineData("titanium-6al-4v", 8.6)]
    [InlineData("titanium-cp", 8.6)]
    [InlineData("nickel-alloy-718", 13.16)]
    [InlineData("nickel-alloy-625", 12.8)]
    [InlineData("nickel-alloy-in738", 11.6)] // from memory
    [InlineData("brass-c36000", 20.5)]
    [InlineData("brass-c26000", 19.9)]
    [InlineData("bronze-c93200", 18.0)]
    [InlineData("copper-c11000", 17.0)]
    [InlineData("invar-36", 1.6)]
    [InlineData("super-invar", 0.72)]
    [InlineData("kovar", 5.1)]
    [InlineData("granite", 6.5)] // from memory
    [InlineData("fused-silica", 0.55)] // from memory
    [InlineData("glass-ceramic", 0.0)] // from memory
    [InlineData("carbide-wc-6co", 5.0)] // from memory
    [InlineData("polymer-concrete", 14.0)] // from memory
    [InlineData("steel-gauge-block", 11.5)] // Swyt, J. Res. NIST 99 (1994) 31
    [InlineData("silicon", 2.6)] // Swyt, J. Res. NIST 99 (1994) 31
    [InlineData("steel", 11.5)] // Swyt, J. Res. NIST 99 (1994) 31
    public void An_expansion_coefficient_agrees_with_the_handbook(string id, double published) =>
        Assert.Equal(published, Library().Single(m => m.Id == id).AlphaMicrometresPerMetreKelvin, 1.0);

    [Theory]
    [InlineData("ductile-iron", 11.5, 3.6e6)]
    [InlineData("steel-42crmo4", 11.5, 3.73e6)]
    [InlineData("steel-34crnimo6", 11.6, 3.73e6)]
    [InlineData("aluminium-5083", 23.8, 2.43e6)]
    [InlineData("aluminium-alsi7", 21.5, 2.4e6)]
    [InlineData("grey-iron-gjl", 10.8, 3.6e6)]
    [InlineData("tool-steel", 10.8, 3.54e6)]
    [InlineData("stainless-316l", 16.0, 3.99e6)]
    public void The_materials_of_the_sample_cell_have_the_values_it_was_made_with(string id, double alpha, double volumetricHeat)
    {
        var material = Library().Single(m => m.Id == id);
        Assert.Equal(alpha, material.AlphaMicrometresPerMetreKelvin);
        Assert.Equal(volumetricHeat, material.VolumetricHeatJoulesPerCubicMetreKelvin, 0.02 * volumetricHeat);
    }

    [Fact]
    public void Each_entry_names_its_source_and_admits_an_uncertainty()
    {
        Assert.All(Library(), m =>
        {
            Assert.NotEqual("not stated", m.Source);
            Assert.InRange(m.UAlphaMicrometresPerMetreKelvin, 0.3, 2.0);
            Assert.Equal(Provenance.Default, m.Provenance);
        });
    }

    [Fact]
    public void The_shipped_library_is_the_file_of_the_configuration()
    {
        var path = Path.Combine(ReadingAPlantFileTests.Repository, "config", "materials.yaml");
        var result = PlantFileReader.Parse("p", ExamplePlant.Text, path, File.ReadAllText(path));
        Assert.Equal(Library(), result.Cell!.Description.Materials.Where(m => m.Id != "special-iron"));
    }

    [Fact]
    public void A_plant_file_changes_of_a_library_material_only_what_it_states_and_the_source_says_so()
    {
        var text = ExamplePlant.With("  - { id: special-iron", "  - { id: steel-42crmo4, alpha: 11.9 }\n  - { id: special-iron")
            .Replace("material: special-iron", "material: steel-42crmo4", StringComparison.Ordinal);
        var material = PlantFileReader.Parse("p", text).Cell!.Parts[0].Material;
        Assert.Equal((11.9, 0.5, 7850.0), (material.AlphaMicrometresPerMetreKelvin, material.UAlphaMicrometresPerMetreKelvin, material.DensityKilogramsPerCubicMetre));
        Assert.StartsWith("changed in the plant file; unchanged numbers: from memory", material.Source, StringComparison.Ordinal);
    }

    private static IReadOnlyList<Material> Library() =>
        [.. PlantFileReader.Parse("p", ExamplePlant.Text).Cell!.Description.Materials.Where(m => m.Id != "special-iron")];
}
