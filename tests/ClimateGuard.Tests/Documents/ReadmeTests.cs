using System.Text.Json;
using System.Text.RegularExpressions;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Documents;

/// <summary>What the documents say is executed: what nobody executes goes stale.</summary>
public sealed partial class ReadmeTests
{
    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    public void Every_path_a_document_names_exists(string document)
    {
        var text = File.ReadAllText(Repository.PathOf(document));
        var missing = Paths().Matches(text).Select(match => match.Groups[1].Value.TrimEnd('/', '.'))
            .Where(path => !path.Contains("bin/", StringComparison.Ordinal) && !path.Contains("artifacts", StringComparison.Ordinal))
            .Distinct()
            .Where(path => !File.Exists(Repository.PathOf(path)) && !Directory.Exists(Repository.PathOf(path)));

        Assert.Empty(missing);
    }

    [Fact]
    public void The_case_of_the_readme_is_a_case()
    {
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;

        var read = CaseFileReader.Parse("README.md", Block("json"), cell);

        Assert.Empty(read.Problems);
        Assert.NotNull(read.Case);
    }

    [Fact]
    public void Every_payload_of_the_readme_is_read()
    {
        var text = File.ReadAllText(Repository.PathOf("README.md"));
        text = text[text.IndexOf("| topic | payload |", StringComparison.Ordinal)..];
        var job = Payload(text, "{\"serial\"");
        var offset = Payload(text, "{\"by\"");
        var measurements = Regex.Matches(text, "`(\\{\"kind\"[^`]*)`").Select(match => match.Groups[1].Value).ToArray();

        Assert.Null(EventDecoder.Decode(EventTypes.Job, "M3", System.Text.Encoding.UTF8.GetBytes(job), Some.Morning).Reason);
        Assert.Null(EventDecoder.Decode(EventTypes.OffsetSet, "M3", System.Text.Encoding.UTF8.GetBytes(offset), Some.Morning).Reason);
        Assert.Equal(3, measurements.Length);
        Assert.All(measurements, payload =>
            Assert.Null(EventDecoder.Decode(EventTypes.Measurement, "M3", System.Text.Encoding.UTF8.GetBytes(payload), Some.Morning).Reason));
    }

    [Fact]
    public void Every_field_of_the_outlook_that_the_readme_names_is_in_the_outlook()
    {
        var text = File.ReadAllText(Repository.PathOf("README.md"));
        var row = text.Split('\n').Single(line => line.Contains("/outlook` (out", StringComparison.Ordinal));
        var named = Regex.Matches(row.Split('|')[2], "`(\\w+)`").Select(match => match.Groups[1].Value);
        var written = JsonDocument.Parse(OutlookJson.ToUtf8(new ClimateGuard.Watch.Outlook
        {
            Machine = "M1",
            Level = ClimateGuard.Watch.Level.Ready,
            Reason = "r",
            Action = "a",
            Seq = 1,
            IssuedAt = Some.Morning,
            ValidUntil = Some.Morning,
        })).RootElement.EnumerateObject().Select(property => property.Name);

        Assert.Empty(named.Except(written));
    }

    [GeneratedRegex(@"[`(]((?:src|tests|config|deploy|\.ci)/?[\w./-]*)[`)]")]
    private static partial Regex Paths();

    private static string Block(string language) =>
        Regex.Match(File.ReadAllText(Repository.PathOf("README.md")), $"```{language}\n(.*?)```", RegexOptions.Singleline).Groups[1].Value;

    private static string Payload(string text, string start)
    {
        var from = text.IndexOf(start, StringComparison.Ordinal);
        return text[from..text.IndexOf('`', from)];
    }
}
