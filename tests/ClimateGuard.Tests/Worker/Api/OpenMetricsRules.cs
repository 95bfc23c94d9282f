using System.Globalization;
using System.Text.RegularExpressions;

namespace ClimateGuard.Tests.Worker.Api;

/// <summary>The rules of the OpenMetrics 1.0.0 text format that our text must keep (from memory of the specification's ABNF and data model).</summary>
internal static partial class OpenMetricsRules
{
    public static IReadOnlyList<string> Violations(string text)
    {
        var violations = new List<string>();
        if (!text.EndsWith("\n# EOF\n", StringComparison.Ordinal) || text.Contains('\r'))
        {
            violations.Add("the text must end in # EOF and a line feed, without carriage returns");
        }

        var families = new HashSet<string>();
        var samples = new HashSet<string>();
        var (family, type) = ("", "");
        foreach (var line in text.Split('\n')[..^1].TakeWhile(line => line != "# EOF"))
        {
            if (line.Length == 0)
            {
                violations.Add("a blank line");
            }
            else if (Metadata().Match(line) is { Success: true } metadata)
            {
                if (metadata.Groups["word"].Value == "TYPE")
                {
                    (family, type) = (metadata.Groups["name"].Value, metadata.Groups["rest"].Value);
                    violations.AddRange(families.Add(family) ? [] : [$"family {family} comes in two pieces"]);
                }
                else if (metadata.Groups["name"].Value != family)
                {
                    violations.Add($"metadata outside its family: {line}");
                }
                else if (metadata.Groups["word"].Value == "UNIT" && !family.EndsWith("_" + metadata.Groups["rest"].Value, StringComparison.Ordinal))
                {
                    violations.Add($"the name does not end in its unit: {line}");
                }
            }
            else
            {
                violations.AddRange(OfSample(line, family, type, samples));
            }
        }

        return violations;
    }

    private static IEnumerable<string> OfSample(string line, string family, string type, HashSet<string> samples)
    {
        if (Sample().Match(line) is not { Success: true } sample)
        {
            yield return $"no sample with a number: {line}";
            yield break;
        }

        var name = sample.Groups["name"].Value;
        if (type == "counter" && !name.EndsWith("_total", StringComparison.Ordinal))
        {
            yield return $"a counter sample that does not end in _total: {line}";
        }

        if (name != (type == "counter" ? family + "_total" : family))
        {
            yield return $"a sample outside its family: {line}";
        }

        if (!samples.Add(name + sample.Groups["labels"].Value))
        {
            yield return $"a sample twice: {line}";
        }

        if (type == "counter" && double.Parse(sample.Groups["value"].Value, CultureInfo.InvariantCulture) < 0)
        {
            yield return $"a counter below zero: {line}";
        }
    }

    [GeneratedRegex(@"^# (?<word>TYPE|UNIT|HELP) (?<name>[a-zA-Z_:][a-zA-Z0-9_:]*) (?<rest>(?:[^\n\\""]|\\[n\\""])*)$")]
    private static partial Regex Metadata();

    [GeneratedRegex(@"^(?<name>[a-zA-Z_:][a-zA-Z0-9_:]*)(?<labels>\{[a-zA-Z_][a-zA-Z0-9_]*=""(?:[^\n\\""]|\\[n\\""])*""\})? (?<value>NaN|[+-]Inf|-?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?)$")]
    private static partial Regex Sample();
}
