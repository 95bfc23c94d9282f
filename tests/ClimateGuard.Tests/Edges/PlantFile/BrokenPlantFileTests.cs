using System.Text;
using ClimateGuard.Edges.PlantFile;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class BrokenPlantFileTests
{
    // piece of the example, what stands there instead, the piece in whose line the problem must be told, part of the sentence
    public static TheoryData<string, string, string, string> Mistakes => new()
    {
        { "version: 1 ", "version: 2 ", "version: 2", "version 2 is not known; allowed: 1" },
        { "cell: cell9", "cell: cell 9", "cell: cell 9", "allowed: letters, digits and _ -" },
        { "timeZone: Europe/Vienna", "timeZone: Europe/Viena", "Europe/Viena", "did you mean Europe/Vienna?" },
        { "referenceC: 20.0", "referenceC: 200", "referenceC", "referenceC 200 is out of range; allowed: from 10 to 30" },
        { "airHandlers: [ahu1]", "airHandlers: [ahu2]", "[ahu2]", "air handler 'ahu2' is unknown; did you mean ahu1?" },
        { "from: Sat 14:30", "from: Saturday 14:30", "Saturday", "a day and a time of day, such as Sat 14:30" },
        { "until: Thu 04:30", "until: Thu 24:30", "Thu 24:30", "a day and a time of day" },
        { "until: Thu 04:30", "until: Wed 22:00", "until: Wed 22:00", "the set-back begins and ends on Wed 22:00" },
        { "from: Wed 22:00", "from: Sun 22:00", "from: Sun 22:00", "this set-back meets entry 1 of the list" },
        { "until: Mon 05:00", "until: Wed 22:01", "from: Wed 22:00", "this set-back meets entry 1 of the list" },
        { "setpointC: 21.5", "setpointC: 20", "setpointC: 20 }", "20 is the set point of the zone itself" },
        { "setpointC: 21.5", "setpointC: 215", "setpointC: 215", "setpointC 215 is out of range; allowed: from 5 to 40" },
        { ", setpointC: 21.5", "", "Wed 22:00", "setpointC is missing" },
        { "uncertaintyK: 0.05", "uncertantyK: 0.05", "uncertantyK", "did you mean uncertaintyK?" },
        { "plausible: [5, 45]", "plausible: [45, 5]", "[45, 5]", "low below high" },
        { "plausible: [5, 45]", "plausible: [5]", "plausible: [5]", "plausible has 1 entry; allowed: exactly 2" },
        { "plausible: [5, 45]", "device: currentLoop\n    loopRange: [50, 0]", "[50, 0]", "loopRange [50, 0] runs backwards" },
        { "plausible: [5, 45]", "device: ds18b20\n    loopRange: [0, 50]", "[0, 50]", "write device: currentLoop" },
        { "plausible: [5, 45]", "device: pt1000", "pt1000", "currentLoop" },
        { "unit: C ", "unit: kW ", "unit: kW", "unit 'kW' is not a unit of temperature; allowed: C, F, K" },
        { "timeConstantS: 60", "timeConstantS: -60", "timeConstantS", "-60 is out of range; allowed: from 0" },
        { "timeConstantS: 60", "timeConstantS: .nan", "timeConstantS", ".nan, which is not a finite number" },
        { "timeConstantS: 60", "timeConstantS: .inf", "timeConstantS", ".inf, which is not a finite number" },
        { "massKg: 60", "massKg: 1e999", "massKg", "1e999, which is not a finite number" },
        { "timeConstantS: 60", "timeConstantS: 60 s", "timeConstantS", "write the number alone, its unit is in the key" },
        { "timeConstantS: 60", "timeConstantS: 0,5", "timeConstantS", "write the decimal point as a point" },
        { "timeConstantS: 60", "timeConstantS:", "timeConstantS", "timeConstantS is empty" },
        { "offset: 0.03", "offset: 0,03", "0,03", "was a decimal comma meant?" },
        { "2026-01-10T08:00:00Z", "2026-01-10", "from: 2026-01-10", "a time with its offset" },
        { "2026-01-10T08:00:00Z", "2026-02-31T08:00:00Z", "2026-02-31", "is not a time" },
        { "id: air/a2", "id: air/a1", "- { id: air/a1", "sensor 'air/a1' is defined twice" },
        { "outdoorAir: false", "outdoorAir: off", "outdoorAir", "off is a text in YAML 1.2" },
        { "supply: ahu1/supply", "suply: ahu1/supply", "suply", "did you mean supply?" },
        { "supply: ahu1/supply", "supply: door/roller", "supply: door/roller", "needs a sensor of quantity temperature" },
        { "coolant: m1/coolant", "coolant: air/a1", "coolant: air/a1", "place coolant or dielectric" },
        { "coolant: m1/coolant", "coolant: m1/coolent", "coolent", "did you mean m1/coolant?" },
        { "alpha: 10.5,", "alpha: 11.5e-6,", "11.5e-6", "looks like a coefficient in 1/K; write µm/(m K), here 11.5" },
        { "alpha: 10.9,", "alpha: 11.5e-6,", "11.5e-6", "looks like a coefficient in 1/K; write µm/(m K), here 11.5" },
        { "alpha: 10.9,", "alpha: 115,", "alpha: 115", "alpha 115 is out of range; allowed: from -2 to 40" },
        { "alpha: 10.9, ", "", "id: special-iron", "material 'special-iron' has no alpha" },
        { "material: special-iron", "material: special-irn", "special-irn", "material 'special-irn' is unknown; did you mean special-iron?" },
        { "machines: [M1]", "machines: [M2]", "[M2]", "machine 'M2' is unknown; did you mean M1?" },
        { "budgetUm: 18 ", "budgetUm: 0 ", "budgetUm: 0", "budgetUm 0 is out of range; allowed: above 0" },
        { "budgetUm: 18 ", "budgetUm: 61 ", "budgetUm: 61", "61 µm is more than the whole tolerance of 60 µm" },
        { "budgetUm: 18 ", "budgetShare: 0.3\n        budgetUm: 18 ", "budgetShare: 0.3\n", "keep one of them" },
        { "budgetShare: 0.30, finishMinutes: 8", "budgetShare: 30, finishMinutes: 8", "budgetShare: 30", "30 % is written 0.3" },
        { "boltCircle:", "# boltCircle:", "id: bolt-circle", "a position says where its holes are" },
        { "boltCircle:", "points: [[1, 2]]\n        boltCircle:", "points: [[1, 2]]", "boltCircle and points are both stated" },
        { "nominalMm: 240, ", "", "id: bore, ", "a feature of kind size needs nominalMm" },
        { "kind: depth", "kind: dept", "kind: dept", "did you mean depth?" },
        { "volumeToAreaMm: 20", "", "number: CP-100", "volumeToAreaMm is missing in entry 1 of parts" },
        { "watch: 0.02", "watch: 0.2", "watch: 0.2", "watch 0.2 must lie below measure 0.1" },
        { "releaseHold: 0.10", "releaseHold: 0.30", "releaseHold", "releaseHold 0.3 must lie below hold 0.3" },
        { "\"06:00\"", "\"6:00\"", "6:00", "a time of day from 00:00 to 23:59" },
        { "to: \"14:00\"", "to: \"06:00\"", "to: \"06:00\"", "begins and ends at 06:00" },
        { "[Mon, Tue,", "[Mon, Mon,", "[Mon, Mon", "Mon stands twice" },
        { "- id: M1  ", "- id: M1\n    id: M2  ", "id: M2", "key 'id' stands twice; the first is in line 49" },
        { "policies:", "policies:\n  findings: { F04: { leak: 1.0 } }", "findings:", "F04 (valve leaks) has no limit leak; it has leakKelvin" },
        { "policies:", "policies:\n  findings: { F04: { leakKelvin: 0 } }", "findings:", "F04/leakKelvin is 0; a limit above 0 is allowed" },
        { "policies:", "policies:\n  findings: { F35: { leakKelvin: 1 } }", "findings:", "F35" },
        { "name: Example cell", "name: [a, b]", "[a, b]", "name holds a list; allowed: a text" },
        { "name: Example cell", "name: true", "name: true", "write \"true\" in quotes" },
        { "name: Example cell", "name: *x", "name: *x", "alias *x has no anchor" },
        { "name: Example cell", "name: !!binary x", "!!binary", "tag tag:yaml.org,2002:binary is not known here" },
        { "id: pitch", "id: bore", "id: bore, kind: distance", "feature 'bore' is defined twice" },
        { "currency: EUR", "currency: euro", "euro", "three capital letters such as EUR" },
        { "cell: cell9", "cell: cell9\n\tname: x", "\tname: x", "a tab indents this line" },
        { "policies:", "---\npolicies:", "---", "a second document begins here" },
        { "heightM: 1.5", "topic: cg/cell9/reading/air/a2", "- { id: air/a2", "topic 'cg/cell9/reading/air/a2' already belongs to sensor 'air/a1'" },
        { "heightM: 1.5", "topic: cg/+/x", "cg/+/x", "without the wildcards" },
    };

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void One_mistake_is_told_once_in_its_line_and_there_is_no_cell(string piece, string mistake, string there, string sentence)
    {
        var text = ExamplePlant.With(piece, mistake);
        var result = PlantFileReader.Parse("plant.yaml", text);
        var problem = Assert.Single(result.Problems);
        Assert.Null(result.Cell);
        Assert.Contains(sentence, problem.Message, StringComparison.Ordinal);
        Assert.Equal(("plant.yaml", ExamplePlant.LineOf(text, there)), (problem.File, problem.Line));
        Assert.True(problem.Column > 0);
    }

    [Fact]
    public void All_mistakes_are_told_in_the_order_of_their_lines()
    {
        var text = ExamplePlant.Text
            .Replace("uncertaintyK: 0.05", "uncertainty: 0.05", StringComparison.Ordinal)
            .Replace("medium: chilledWater", "medium: water", StringComparison.Ordinal)
            .Replace("coolant: m1/coolant", "coolant: m7/coolant", StringComparison.Ordinal)
            .Replace("material: special-iron", "material: unobtainium", StringComparison.Ordinal)
            .Replace("budgetUm: 18", "budgetUm: -18", StringComparison.Ordinal)
            .Replace("nominalMm: 200,", "", StringComparison.Ordinal)
            .Replace("measure: 0.10", "measure: 0.9", StringComparison.Ordinal);
        var problems = PlantFileReader.Parse("p", text).Problems;
        Assert.Equal(
            ["/sensors/0/uncertainty", "/airHandlers/0/medium", "/machines/0/coolant", "/parts/0/material", "/parts/0/features/0/budgetUm", "/parts/0/features/3", "/policies/probability/measure"],
            problems.Select(p => p.Path));
        Assert.Equal(problems.Select(p => p.Line).Order(), problems.Select(p => p.Line));
        Assert.Equal(ExamplePlant.LineOf(text, "unobtainium"), problems[3].Line);
    }

    [Fact]
    public void A_section_under_a_wrong_name_is_not_blamed_on_everything_that_refers_to_it()
    {
        var problems = PlantFileReader.Parse("p", ExamplePlant.With("sensors:  ", "sensoren:  ")).Problems;
        Assert.Equal(2, problems.Count);
        Assert.Contains(problems, p => p.Message.StartsWith("sensors is missing", StringComparison.Ordinal));
        Assert.Contains(problems, p => p.Message.Contains("did you mean sensors?", StringComparison.Ordinal));
    }

    [Fact]
    public void A_machine_says_its_zone_where_there_are_two()
    {
        var text = ExamplePlant.With("  - id: main\n", "  - id: other\n  - id: main\n").Replace("    zone: main\n    envelopeMm", "    envelopeMm", StringComparison.Ordinal);
        var problem = Assert.Single(PlantFileReader.Parse("p", text).Problems);
        Assert.Equal("machine 'M1' states no zone, and the cell has 2; add zone, one of other, main", problem.Message);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \n\n")]
    [InlineData("# only a comment\n")]
    [InlineData("---\n")]
    [InlineData("~\n")]
    public void An_empty_file_is_one_clear_problem(string text)
    {
        var problem = Assert.Single(PlantFileReader.Parse("p.yaml", text).Problems);
        Assert.StartsWith("the file is empty", problem.Message, StringComparison.Ordinal);
        Assert.StartsWith("p.yaml: the file", problem.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]", 1)]
    [InlineData("just words", 1)]
    [InlineData("version: 1\ncell: {a: 1\nzones: 2\n", 2)]
    [InlineData("version: 1\ncell: \"open\n", 2)]
    [InlineData("version: 1\n  cell: b\n", 2)]
    [InlineData("version: 1\n? [a, b]\n: c\n", 2)]
    [InlineData("version: 1\nname: &r [*r]\n", 2)]
    [InlineData("version: 1\nname: a\u0001b\n", 2)]
    [InlineData("version: 1\n\0cell: c\n", 2)]
    public void What_is_not_a_plant_file_is_told_with_its_line_and_never_thrown(string text, int line)
    {
        var problem = PlantFileReader.Parse("p", text).Problems[0];
        Assert.Equal(line, problem.Line);
    }

    [Fact]
    public void Aliases_of_aliases_are_bounded()
    {
        var text = new StringBuilder("a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n");
        for (var i = 1; i < 9; i++)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"a{i}: &a{i} [").AppendJoin(", ", Enumerable.Repeat($"*a{i - 1}", 10)).Append("]\n");
        }

        var problem = Assert.Single(PlantFileReader.Parse("p", text.ToString()).Problems);
        Assert.StartsWith("more than 500000 values", problem.Message, StringComparison.Ordinal);
        Assert.Equal(6, problem.Line);
    }

    [Theory]
    [InlineData(40)]
    [InlineData(100_000)]
    public void Nesting_is_bounded(int levels)
    {
        var problem = Assert.Single(PlantFileReader.Parse("p", "a: " + new string('[', levels) + new string(']', levels)).Problems);
        Assert.StartsWith("more than 32 levels", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_anchor_may_be_used_again()
    {
        var text = ExamplePlant.Text
            .Replace("plausible: [5, 45]", "plausible: &usual [5, 45]", StringComparison.Ordinal)
            .Replace("place: supply, airHandler: ahu1 }", "place: supply, airHandler: ahu1, plausible: *usual }", StringComparison.Ordinal);
        var result = PlantFileReader.Parse("p", text);
        Assert.Equal([], result.Problems);
        Assert.DoesNotContain(result.Cell!.Description.Defaults, d => d.Path == "/sensors/2/plausible");
    }

    [Fact]
    public void Numbers_as_ids_are_the_text_that_was_written()
    {
        var text = ExamplePlant.Text.Replace("number: CP-100", "number: 0815", StringComparison.Ordinal).Replace("- id: M1", "- id: 300", StringComparison.Ordinal)
            .Replace("machines: [M1]", "machines: [300]", StringComparison.Ordinal).Replace("machine: M1", "machine: \"300\"", StringComparison.Ordinal);
        var result = PlantFileReader.Parse("p", text);
        Assert.Equal([], result.Problems);
        Assert.NotNull(result.Cell!.FindPart("0815"));
        Assert.NotNull(result.Cell.FindMachine("300"));
    }

    [Theory]
    [InlineData("on")]
    [InlineData("no")]
    [InlineData("06:00")]
    [InlineData("0x1F")]
    [InlineData("1_000")]
    [InlineData("SN 4411")]
    [InlineData("1.10")]
    [InlineData("2026-01-10")]
    public void A_text_stays_the_text_that_was_written(string written)
    {
        var result = PlantFileReader.Parse("p", ExamplePlant.With("name: Example cell", "name: " + written));
        Assert.Equal(written, result.Cell!.Description.Name);
    }
}
