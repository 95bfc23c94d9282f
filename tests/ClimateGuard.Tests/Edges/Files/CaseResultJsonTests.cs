using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Edges.Files;

public sealed class CaseResultJsonTests
{
    private const string Text =
        """{"machine":"M2","part":"BH-420","plannedMinutes":20,"state":{"partC":20.8,"partU":0.1,"scaleC":20.1,"scaleU":0.1},"drift":{"x":1,"y":0,"z":0,"u":0.2}}""";

    [Fact]
    public void A_case_is_answered_with_its_uncertainty_in_both_ways_and_what_makes_it_up()
    {
        var features = Evaluate(Text).GetProperty("features");
        var bore = features[0];
        Assert.Equal("bore", bore.GetProperty("feature").GetString());

        // 180 mm: 10.5·0.1 − 10.8·0.8 = −7.59 µm/m.
        Assert.Equal(-1.3662, bore.GetProperty("effectUm").GetDouble(), 1e-9);
        var u = bore.GetProperty("uUm").GetDouble();
        Assert.Equal(u, bore.GetProperty("uMonteCarloUm").GetDouble(), 0.02 * u);
        var shares = bore.GetProperty("contributions").EnumerateArray().ToDictionary(share => share.GetProperty("label").GetString()!, share => share.GetProperty("uUm").GetDouble());
        Assert.Equal(u, Math.Sqrt(shares.Values.Sum(share => share * share)), 1e-9);
        Assert.Equal(0.18 * 0.1 * Math.Sqrt((10.8 * 10.8) + (10.5 * 10.5)), shares["temperature of part and scale"], 1e-9);
        Assert.Equal("stated as an amount", bore.GetProperty("budgetHow").GetString());
        Assert.Equal(u / 2.7, bore.GetProperty("health").GetDouble(), 1e-9);

        var coaxiality = features[1];
        Assert.Equal(4.0, coaxiality.GetProperty("driftUm").GetDouble(), 1e-9);
        Assert.Equal(0.8, coaxiality.GetProperty("uUm").GetDouble(), 1e-9);
    }

    [Fact]
    public void The_same_case_gets_the_same_answer() => Assert.Equal(Evaluate(Text).GetRawText(), Evaluate(Text).GetRawText());

    private static JsonElement Evaluate(string text)
    {
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
        var stated = CaseFileReader.Parse("case.json", text, cell).Case!;
        var model = new ThermalModel(stated.Machine, stated.Part, reference: cell.Description.Reference);
        var risks = FinishCutRisk.Over(model, model.StateOf(stated.Temperatures), stated.Cut, cell.Description.Policies);
        return JsonDocument.Parse(CaseResultJson.Text(stated, risks, model)).RootElement;
    }
}
