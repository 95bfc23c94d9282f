using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>A pattern as JSON.</summary>
internal static class EvidencePatternJson
{
    public static void Pattern(Utf8JsonWriter writer, PatternEvidence? pattern)
    {
        if (pattern is null)
        {
            writer.WriteNull("pattern");
            return;
        }

        writer.WriteStartObject("pattern");
        Fit(writer, "measured", pattern.Fit);
        Fit(writer, "predicted", pattern.PredictedFit);
        Estimate(writer, "equivalentK", pattern.EquivalentKelvins);
        writer.WriteString("match", pattern.Match switch { PatternMatch.Matches => "matches", PatternMatch.Mismatch => "mismatch", _ => "not checked" });
        writer.WriteString("why", pattern.Why);
        writer.WriteArray("signs", pattern.Signs, static (w, sign) =>
        {
            w.WriteStartObject();
            w.WriteString("component", sign.Meaning.Component.ToString());
            EvidenceJson.Number(w, "share", sign.ShareOfSquares);
            EvidenceJson.Number(w, "pValue", sign.PValue);
            w.WriteString("suspectFirst", sign.Meaning.SuspectFirst);
            w.WriteString("then", sign.Meaning.Then);
            w.WriteEndObject();
        });
        if (pattern.Trend is { } trend)
        {
            Estimate(writer, "scalePerMinute", trend.ScalePerStep);
            EvidenceJson.Number(writer, "trendPValue", trend.PValue);
        }

        if (pattern.WithinPart is { } within)
        {
            EvidenceGroupJson.Slope(writer, "withinPart", within);
        }

        writer.WriteBoolean("holeTimesRecorded", pattern.TimesRecorded);
        Holes(writer, pattern);
        writer.WriteEndObject();
    }

    private static void Holes(Utf8JsonWriter writer, PatternEvidence pattern) =>
        writer.WriteArray("holes", pattern.Measured.Select((one, i) => (one, predicted: pattern.Predicted[i], at: pattern.CutAt[i])), static (w, hole) =>
        {
            w.WriteStartObject();
            w.WriteNumber("hole", hole.one.Hole);
            w.WriteTime("cutAt", hole.at);
            EvidenceJson.Number(w, "dxUm", hole.one.Deviation.Dx);
            EvidenceJson.Number(w, "dyUm", hole.one.Deviation.Dy);
            EvidenceJson.Number(w, "predictedDxUm", hole.predicted.Dx);
            EvidenceJson.Number(w, "predictedDyUm", hole.predicted.Dy);
            w.WriteEndObject();
        });

    internal static void Estimate(Utf8JsonWriter writer, string name, Estimate estimate)
    {
        writer.WriteStartObject(name);
        EvidenceJson.Number(writer, "value", estimate.Value);
        EvidenceJson.Number(writer, "standardError", estimate.StandardError);
        writer.WriteEndObject();
    }

    private static void Fit(Utf8JsonWriter writer, string name, SimilarityFit fit)
    {
        writer.WriteStartObject(name);
        Estimate(writer, "scaleUmPerM", fit.ScaleMicrometresPerMetre);
        Estimate(writer, "rotationUrad", fit.RotationMicroradians);
        Estimate(writer, "translationXUm", fit.TranslationX);
        Estimate(writer, "translationYUm", fit.TranslationY);
        EvidenceJson.Number(writer, "residualRmsUm", fit.ResidualRms);
        writer.WriteEndObject();
    }
}
