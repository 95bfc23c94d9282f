using System.Xml.Linq;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.House;

/// <summary>The project references are the arrows of the house.</summary>
public sealed class ArrowsTests
{
    private static readonly Dictionary<string, string[]> Drawing = new()
    {
        ["Plant"] = [],
        ["Thermal"] = ["Plant"],
        ["Enclosure"] = ["Thermal"],
        ["Evidence"] = ["Thermal"],
        ["Watch"] = ["Enclosure", "Evidence", "Thermal"],
        ["Edges"] = ["Watch"],
        ["Simulator"] = ["Plant"],
        ["Worker"] = ["Edges", "Simulator"],
    };

    [Fact]
    public void Every_room_is_drawn_and_every_drawn_room_exists()
    {
        var rooms = Directory.GetDirectories(Repository.PathOf("src")).Select(folder => Path.GetFileName(folder)["ClimateGuard.".Length..]);

        Assert.Equal(Drawing.Keys.Order(), rooms.Order());
    }

    [Theory]
    [InlineData("Plant")]
    [InlineData("Thermal")]
    [InlineData("Enclosure")]
    [InlineData("Evidence")]
    [InlineData("Watch")]
    [InlineData("Edges")]
    [InlineData("Simulator")]
    [InlineData("Worker")]
    public void A_room_refers_to_what_the_drawing_says_and_nothing_else(string room)
    {
        var arrows = Project(room).Descendants("ProjectReference")
            .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)["ClimateGuard.".Length..]);

        Assert.Equal(Drawing[room].Order(), arrows.Order());
    }

    [Theory]
    [InlineData("Plant")]
    [InlineData("Thermal")]
    [InlineData("Enclosure")]
    [InlineData("Evidence")]
    public void A_pure_room_forbids_input_output_clocks_and_chance_at_compile_time(string room)
    {
        Assert.Contains(Project(room).Descendants("Import"), import => import.Attribute("Project")!.Value.EndsWith("Pure.props", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Plant")]
    [InlineData("Thermal")]
    [InlineData("Enclosure")]
    [InlineData("Evidence")]
    public void A_pure_room_uses_no_package_but_numbers(string room)
    {
        var packages = Project(room).Descendants("PackageReference").Select(reference => reference.Attribute("Include")!.Value);

        Assert.All(packages, package => Assert.Equal("MathNet.Numerics", package));
    }

    private static XDocument Project(string room) =>
        XDocument.Load(Repository.PathOf("src", $"ClimateGuard.{room}", $"ClimateGuard.{room}.csproj"));
}
