using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>Groups and validity as JSON.</summary>
internal static class EvidenceGroupJson
{
    public static void Group(Utf8JsonWriter writer, GroupEvidence group)
    {
        writer.WriteStartObject();
        writer.WriteString("part", group.Part);
        writer.WriteString("feature", group.Feature);
        writer.WriteNumber("parts", group.Points.Count);
        writer.WriteNumber("episodes", group.Episodes);
        if (group.Slope is { } slope)
        {
            Slope(writer, "slope", slope);
        }

        if (group.Intercept is { } intercept)
        {
            EvidencePatternJson.Estimate(writer, "interceptUm", intercept);
        }

        if (group.BothErrors is { } both)
        {
            EvidencePatternJson.Estimate(writer, "slopeBothErrors", both.Slope);
        }

        EvidenceJson.Number(writer, "rSquared", group.RSquared);
        EvidenceJson.Number(writer, "naiveRSquared", group.NaiveRSquared);
        Tests(writer, group);
        Members(writer, group);
        writer.WriteEndObject();
    }

    private static void Members(Utf8JsonWriter writer, GroupEvidence group)
    {
        writer.WriteArray("confounders", group.Confounders, static (w, confounder) =>
        {
            w.WriteStartObject();
            w.WriteString("name", confounder.Name);
            EvidenceJson.Number(w, "correlationRatio", confounder.CorrelationRatio);
            EvidenceJson.Number(w, "correlationRatioWithoutFew", confounder.WithoutFew);
            w.WriteNumber("episodesLeftOut", confounder.LeftOut);
            w.WriteBoolean("cannotBeSeparated", confounder.CannotBeSeparated);
            w.WriteEndObject();
        });
        writer.WriteRounded("partsNeeded", group.PartsNeeded, 0);
        writer.WriteArray("points", group.Points, static (w, point) =>
        {
            w.WriteStartObject();
            w.WriteString("serial", point.Serial);
            w.WriteString("machine", point.Machine);
            w.WriteTime("at", point.At);
            w.WriteString("episode", point.Episode);
            EvidenceJson.Number(w, "measuredUm", point.Measured);
            EvidenceJson.Number(w, "predictedUm", point.Predicted);
            EvidenceJson.Number(w, "naiveAirK", point.NaiveAirKelvins);
            w.WriteEndObject();
        });
    }

    public static void Slope(Utf8JsonWriter writer, string name, SlopeTest slope)
    {
        writer.WriteStartObject(name);
        EvidenceJson.Number(writer, "value", slope.Slope.Value);
        EvidenceJson.Number(writer, "standardError", slope.Slope.StandardError);
        EvidenceJson.Number(writer, "low", slope.Interval.Low);
        EvidenceJson.Number(writer, "high", slope.Interval.High);
        writer.WriteRounded("pAgainst0", slope.PValueAgainstZero, 6);
        writer.WriteRounded("pAgainst1", slope.PValueAgainstOne, 6);
        writer.WriteString("finding", Words.Of(slope.Finding));
        writer.WriteEndObject();
    }

    public static void Validity(Utf8JsonWriter writer, ModelValidity validity)
    {
        writer.WriteStartObject();
        writer.WriteString("machine", validity.Machine);
        writer.WriteBoolean("valid", validity.Valid);
        writer.WriteString("notValidBecause", validity.NotValidBecause);
        writer.WriteNumber("checks", validity.Checks.Count);
        EvidenceJson.Number(writer, "coverage", validity.Coverage);
        EvidenceJson.Number(writer, "biasUm", validity.BiasMicrometres);
        writer.WriteString("driftSource", validity.DriftSource);
        writer.WriteArray("last", validity.Checks, static (w, check) =>
        {
            w.WriteStartObject();
            w.WriteTime("time", check.Time);
            w.WriteString("serial", check.Serial);
            w.WriteString("kind", check.Kind);
            EvidenceJson.Number(w, "predicted", check.Predicted);
            EvidenceJson.Number(w, "uPredicted", check.UPredicted);
            EvidenceJson.Number(w, "measured", check.Measured);
            EvidenceJson.Number(w, "uMeasured", check.UMeasured);
            w.WriteEndObject();
        });
        writer.WriteEndObject();
    }

    private static void Tests(Utf8JsonWriter writer, GroupEvidence group)
    {
        if (group.Signs is { } signs)
        {
            writer.WriteNumber("signsAgree", signs.Agree);
            writer.WriteNumber("signsUsed", signs.Used);
        }

        if (group.Permutation is { } permutation)
        {
            writer.WriteRounded("permutationP", permutation.PValue, 6);
            writer.WriteRounded("smallestReachableP", permutation.SmallestReachableP, 6);
            writer.WriteString("permutationCaveat", permutation.Caveat);
        }

        writer.WriteString("negativeControl", group.Future is { } future ? Words.Of(future.Finding) : null);
        writer.WriteStartArray("table");
        foreach (var count in (ReadOnlySpan<int>)[group.Table.ExposedBad, group.Table.ExposedGood, group.Table.OtherBad, group.Table.OtherGood])
        {
            writer.WriteNumberValue(count);
        }

        writer.WriteEndArray();
        writer.WriteRounded("fisherP", group.Fisher.PValue, 6);
        writer.WriteRounded("fisherMidP", group.Fisher.MidP, 6);
        EvidenceJson.Number(writer, "riskRatio", group.Risk?.Ratio);
        if (group.Capability is { } capability)
        {
            EvidenceJson.Number(writer, "ppk", capability.AsMeasured.Ppk);
            EvidenceJson.Number(writer, "ppkWithoutThermal", capability.WithoutThermalPart.Ppk);
        }
    }

    /// <summary>Findings as words.</summary>
    internal static class Words
    {
        public static string Of(SlopeFinding finding) => finding switch
        {
            SlopeFinding.ConsistentInSize => "consistent with the thermal prediction in size",
            SlopeFinding.RelatedButSizeWrong => "related but the size is wrong (sensitivity, alpha or compensation factors off)",
            SlopeFinding.NoRelation => "no relation of the predicted size",
            _ => "data too few",
        };

        public static string Of(ControlFinding finding) => finding switch
        {
            ControlFinding.Clean => "clean",
            ControlFinding.Reacts => "reacts: a confounder is at work",
            _ => "too few to tell",
        };
    }
}
