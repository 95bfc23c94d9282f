using ClimateGuard.Edges.PlantFile;
using CsCheck;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class DamagedPlantFileProperties
{
    private static readonly string[] Debris =
        ["\t", "\n", "  ", ":", "- ", "[", "]", "{", "}", "\"", "'", "&a ", "*a", "!", "|", "#", ",", "-1", ".nan", "1e999", "\0", "é", "null", "? ", "---\n"];

    private static readonly Gen<string> Damaged = Gen.Select(
        Gen.Select(Gen.Int[0, ExamplePlant.Text.Length - 1], Gen.Int[0, 30], Gen.OneOf([.. Debris.Select(d => Gen.Const(d))])).Array[1, 3],
        cuts => cuts.Aggregate(ExamplePlant.Text, (text, cut) =>
        {
            var at = Math.Min(cut.Item1, text.Length);
            return text[..at] + cut.Item3 + text[Math.Min(text.Length, at + cut.Item2)..];
        }));

    [Fact]
    public void However_a_file_is_damaged_there_is_a_cell_or_a_problem_in_a_line_of_it_and_never_an_exception() => Damaged.Sample(
        text =>
        {
            var result = PlantFileReader.Parse("p", text);
            var lines = text.Count(c => c == '\n') + 1;
            return (result.Cell is null) == (result.Problems.Count > 0)
                && result.Problems.All(p => p.Line >= 0 && p.Line <= lines + 1 && p.Message.Length > 10);
        },
        iter: 400,
        threads: 2);
}
