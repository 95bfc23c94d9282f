using System.Collections.Frozen;
using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The limits of the rules: those of the plant file where it states one, else the defaults with their source. Immutable.</summary>
public sealed class FindingLimits
{
    private readonly FrozenDictionary<(string Finding, string Key), double> stated;

    /// <summary>The limits of a cell.</summary>
    /// <param name="policies">The policies of the plant file.</param>
    public FindingLimits(Policies policies)
    {
        ArgumentNullException.ThrowIfNull(policies);
        stated = policies.Findings
            .SelectMany(finding => finding.Value.Select(limit => ((finding.Key, limit.Key), limit.Value)))
            .ToFrozenDictionary(pair => pair.Item1, pair => pair.Value);
    }

    /// <summary>The value of a limit.</summary>
    /// <param name="cause">The cause.</param>
    /// <param name="key">One of the keys of its limits.</param>
    /// <exception cref="ArgumentException">The cause has no such limit.</exception>
    public double Of(FaultCause cause, string key)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return stated.TryGetValue((cause.Id, key), out var value) ? value : Limit(cause, key).Default;
    }

    /// <summary>Where the value of a limit comes from: the plant file, or the source of the default.</summary>
    /// <exception cref="ArgumentException">The cause has no such limit.</exception>
    public string ProvenanceOf(FaultCause cause, string key)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return stated.ContainsKey((cause.Id, key)) ? "plant file" : $"default: {Limit(cause, key).Source}";
    }

    /// <summary>What the plant file states that no rule knows, in words for the person who wrote it; empty when all is well.</summary>
    public static IReadOnlyList<string> Problems(Policies policies)
    {
        ArgumentNullException.ThrowIfNull(policies);
        var problems = new List<string>();
        foreach (var (finding, limits) in policies.Findings)
        {
            if (Catalogue.Find(finding) is not { } cause)
            {
                problems.Add($"/policies/findings/{finding}: there is no such finding; allowed are F01 to F34.");
                continue;
            }

            problems.AddRange(limits.Where(limit => cause.Limits.All(known => known.Key != limit.Key)).Select(limit =>
                $"/policies/findings/{finding}/{limit.Key}: {finding} has no such limit; it has {string.Join(", ", cause.Limits.Select(l => l.Key))}."));
            problems.AddRange(limits.Where(limit => !(limit.Value > 0)).Select(limit =>
                $"/policies/findings/{finding}/{limit.Key}: {limit.Value} is not above 0."));
        }

        return problems;
    }

    private static FindingLimit Limit(FaultCause cause, string key) =>
        cause.Limits.FirstOrDefault(limit => limit.Key == key)
        ?? throw new ArgumentException($"{cause.Id} has no limit '{key}'", nameof(key));
}
