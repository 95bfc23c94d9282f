using ClimateGuard.Edges.PlantFile;

namespace ClimateGuard.Tests.Edges.PlantFile;

/// <summary>What a person reads in the ledger of a changed plant file.</summary>
public sealed class PlantDifferencesTests
{
    [Fact]
    public void A_changed_number_is_told_old_and_new_under_its_own_keys() => Assert.Equal(
        ["machines[M1].scale.alpha: 10.5 → 11.5"],
        Between("scale: { alpha: 10.5,", "scale: { alpha: 11.5,").Lines);

    [Fact]
    public void What_comes_and_what_goes_is_named_by_its_id()
    {
        var renamed = Between("- { id: air/a2,", "- { id: air/a9,");

        Assert.Equal(["sensors[air/a2]: removed", "sensors[air/a9]: added"], renamed.Lines);
    }

    [Fact]
    public void A_list_of_numbers_is_told_whole() => Assert.Equal(
        ["machines[M1].envelopeMm: [800, 800, 800] → [800, 800, 900]"],
        Between("envelopeMm: [800, 800, 800]", "envelopeMm: [800, 800, 900]").Lines);

    [Fact]
    public void Things_without_an_id_are_told_by_their_place() => Assert.Equal(
        ["machines[M1].drift/1.sensitivityUmPerK: 7.0 → 8.0"],
        Between("sensitivityUmPerK: 7.0", "sensitivityUmPerK: 8.0").Lines);

    [Fact]
    public void A_key_that_was_left_out_before_is_told_with_its_value() => Assert.Equal(
        ["machines[M1].name: added Anna"], Between("    kind: 5-axis horizontal", "    kind: 5-axis horizontal\n    name: Anna").Lines);

    [Fact]
    public void Comments_and_layout_are_no_difference() => Assert.Empty(Between("accuracyUm: 6", "accuracyUm:   6   # measured").Lines);

    [Fact]
    public void Another_order_is_told_since_pages_follow_the_file() => Assert.Equal(
        ["zones: another order"],
        PlantDifferences.Between("zones: [{ id: a }, { id: b }]", "zones: [{ id: b }, { id: a }]").Lines);

    [Fact]
    public void The_material_library_beside_it_counts_too() => Assert.Equal(
        ["materials.yaml.materials[iron].alpha: 10.9 → 11"],
        PlantDifferences.Between("a: 1", "a: 1", "materials: [{ id: iron, alpha: 10.9 }]", "materials: [{ id: iron, alpha: 11 }]").Lines);

    [Fact]
    public void Only_so_many_are_told_and_the_rest_is_counted()
    {
        static string Sensors(string unit) => "sensors:\n" + string.Concat(Enumerable.Range(0, 70).Select(i => $"  - {{ id: s{i}, unit: {unit} }}\n"));

        var found = PlantDifferences.Between(Sensors("C"), Sensors("F"));

        Assert.Equal((PlantDifferences.MostLines, 20), (found.Lines.Count, found.LeftOut));
    }

    private static PlantDifferences Between(string old, string now)
    {
        Assert.Contains(old, ExamplePlant.Text, StringComparison.Ordinal);
        return PlantDifferences.Between(ExamplePlant.Text, ExamplePlant.Text.Replace(old, now, StringComparison.Ordinal));
    }
}
