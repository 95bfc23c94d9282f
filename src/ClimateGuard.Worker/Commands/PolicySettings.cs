using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Worker.Commands;

/// <summary>Policies changed key by key, as <c>probability.hold=0.4</c>.</summary>
internal static class PolicySettings
{
    private static readonly string[] Keys =
        ["guardFactor", "probability.watch", "probability.measure", "probability.hold", "probability.releaseHold", "probability.releaseMeasure"];

    /// <summary>The policies with the changes, or what is wrong with them.</summary>
    public static (Policies? Policies, string? Problem) With(Policies policies, IReadOnlyList<string> changes)
    {
        foreach (var change in changes)
        {
            var equals = change.IndexOf('=', StringComparison.Ordinal);
            var key = equals > 0 ? change[..equals].Trim() : change;
            if (equals <= 0 || !Keys.Contains(key, StringComparer.Ordinal))
            {
                return (null, $"--set {change}: a key and its value are allowed, such as probability.hold=0.4; the keys are {string.Join(", ", Keys)}.");
            }

            if (!double.TryParse(change.AsSpan(equals + 1), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !(value > 0) || value >= (key == "guardFactor" ? 10 : 1))
            {
                return (null, $"--set {change}: a number above 0 and below {(key == "guardFactor" ? "10" : "1")}, with a decimal point, is allowed.");
            }

            policies = Set(policies, key, value);
        }

        var limits = policies.Probability;
        return limits.Watch < limits.Measure && limits.Measure < limits.Hold && limits.ReleaseHold < limits.Hold && limits.ReleaseMeasure < limits.Measure
            ? (policies, null)
            : (null, "--set: watch < measure < hold, releaseHold < hold and releaseMeasure < measure are needed.");
    }

    private static Policies Set(Policies policies, string key, double value) => key switch
    {
        "guardFactor" => policies with { GuardFactor = value },
        "probability.watch" => policies with { Probability = policies.Probability with { Watch = value } },
        "probability.measure" => policies with { Probability = policies.Probability with { Measure = value } },
        "probability.hold" => policies with { Probability = policies.Probability with { Hold = value } },
        "probability.releaseHold" => policies with { Probability = policies.Probability with { ReleaseHold = value } },
        _ => policies with { Probability = policies.Probability with { ReleaseMeasure = value } },
    };
}
