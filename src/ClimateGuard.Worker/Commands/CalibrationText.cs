using System.Globalization;
using System.Text;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Commands;

/// <summary>What a dry block says, as text with the entries for the plant file.</summary>
internal static class CalibrationText
{
    public static string Of(BlockResult result)
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"# Settled from {result.From:yyyy-MM-dd'T'HH:mm:ss'Z'} to {result.To:yyyy-MM-dd'T'HH:mm:ss'Z'} at {result.BlockCelsius:0.000} °C.");
        Line($"# Put each entry below its sensor in the plant file and add the instance, such as instance: \"SN 4411\".");
        foreach (var probe in result.Probes)
        {
            Line($"{probe.Sensor}:");
            Line($"    # single readings scatter by {probe.RepeatabilityKelvins:0.000} K; the offset moved by {probe.DriftKelvins:0.000} K in {probe.Minutes} min");
            if (probe.GainError is { } gain)
            {
                Line($"    # gain error {100 * gain:0.00} %: {10 * gain:0.000} K more for each 10 K");
            }

            Line($"    calibrations:");
            Line($"      - {{ from: {result.To:yyyy-MM-dd'T'HH:mm:ss'Z'}, offset: {probe.OffsetKelvins:0.000}, uncertainty: {probe.UncertaintyKelvins:0.000} }}");
        }

        foreach (var reason in result.LeftOut)
        {
            Line($"# left out: {reason}");
        }

        return text.ToString().TrimEnd('\n');
    }
}
