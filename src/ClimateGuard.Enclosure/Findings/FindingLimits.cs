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

    /// <summary>Every limit of a cause with its value and where it comes from.</summary>
    public IReadOnlyList<(FindingLimit Limit, double Value, string Provenance)> All(FaultCause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return [.. cause.Limits.Select(limit => (limit, Of(cause, limit.Key), ProvenanceOf(cause, limit.Key)))];
    }

    /// <summary>What the plant file states that no rule knows, in words for the person who wrote it; empty when all is well.</summary>
    /// <param name="findings">The limits stated, by finding and key.</param>
    public static IReadOnlyList<PlantProblem> Problems(IEnumerable<KeyValuePair<string, IReadOnlyDictionary<string, double>?>> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        return [.. findings.SelectMany(stated => Problems(stated.Key, stated.Value))];
    }

    private static IEnumerable<PlantProblem> Problems(string finding, IReadOnlyDictionary<string, double>? limits)
    {
        var path = $"/policies/findings/{finding}";
        if (Catalogue.Find(finding) is not { } cause)
        {
            yield return new PlantProblem(path, $"there is no finding {finding}; F01 to F34 are allowed");
            yield break;
        }

        foreach (var (key, value) in limits ?? new Dictionary<string, double>())
        {
            if (cause.Limits.All(known => known.Key != key))
            {
                yield return new PlantProblem($"{path}/{key}", $"{finding} ({cause.Name}) has no limit {key}; it has {string.Join(", ", cause.Limits.Select(l => l.Key))}");
            }
            else if (!(value > 0))
            {
                yield return new PlantProblem($"{path}/{key}", FormattableString.Invariant($"{finding}/{key} is {value}; a limit above 0 is allowed"));
            }
        }
    }

    private static FindingLimit Limit(FaultCause cause, string key) =>
        cause.Limits.FirstOrDefault(limit => limit.Key == key)
        ?? throw new ArgumentException($"{cause.Id} has no limit '{key}'", nameof(key));
}
