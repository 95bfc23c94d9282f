using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>Evidence as JSON: the one place that names its fields.</summary>
/// <remarks>Numbers are rounded to 0.001; null is "not known". The same data give the same bytes.</remarks>
public static class EvidenceJson
{
    private const int Digits = 3;

    /// <summary>All of an answer.</summary>
    public static byte[] ToUtf8(BoardData data) => JsonText.ToUtf8(data, static (writer, value) =>
    {
        writer.WriteStartObject();
        Facts(writer, value);
        writer.WriteArray("features", value.Answer.Features, Feature);
        writer.WriteArray("groups", value.Answer.Groups, EvidenceGroupJson.Group);
        writer.WriteArray("validity", value.Answer.Validity, EvidenceGroupJson.Validity);
        writer.WriteTexts("unknown", value.Answer.Unknown);
        writer.WriteEndObject();
    });

    /// <summary>The list of all features, short: what a page or script looks through.</summary>
    public static byte[] ListToUtf8(BoardData data) => JsonText.ToUtf8(data, static (writer, value) =>
    {
        writer.WriteStartObject();
        Facts(writer, value);
        writer.WriteArray("features", value.Answer.Features, static (w, one) =>
        {
            w.WriteStartObject();
            Head(w, one);
            w.WriteEndObject();
        });
        writer.WriteTexts("unknown", value.Answer.Unknown);
        writer.WriteEndObject();
    });

    internal static void Number(Utf8JsonWriter writer, string name, double? value) =>
        writer.WriteRounded(name, value, Digits);

    internal static void Facts(Utf8JsonWriter writer, BoardData data)
    {
        writer.WriteString("cell", data.Cell.Id);
        writer.WriteString("configVersion", data.ConfigVersion);
        writer.WriteString("programVersion", BoardData.ProgramVersion);
        writer.WriteString("readingsSha256", data.ReadingsSha256);
        writer.WriteString("eventsSha256", data.EventsSha256);
        writer.WriteString("resultsSha256", data.ResultsSha256);
        writer.WriteTime("from", data.From);
        writer.WriteTime("to", data.To);
        writer.WriteNumber("readings", data.Readings);
        writer.WriteNumber("events", data.Events);
    }

    internal static void Feature(Utf8JsonWriter writer, FeatureEvidence one)
    {
        writer.WriteStartObject();
        Head(writer, one);
        writer.WriteTexts("reasons", one.Verdict.Reasons);
        writer.WriteTexts("caps", one.Verdict.Caps);
        writer.WriteTexts("competingChanges", one.Case.CompetingChanges);
        writer.WriteTexts("independentEvidence", one.Case.IndependentEvidence);
        Work(writer, one.Inspected.Step);
        writer.WriteArray("values", one.Inspected.All, (w, value) => Value(w, value, one.Inspected.Valid.Contains(value)));
        Prediction(writer, "frozen", one.Frozen);
        Prediction(writer, "recomputed", one.Recomputed);
        Exposure(writer, one.Exposure);
        EvidencePatternJson.Pattern(writer, one.Pattern);
        writer.WriteArray("containment", one.Containment, Contained);
        writer.WriteEndObject();
    }

    private static void Head(Utf8JsonWriter writer, FeatureEvidence one)
    {
        var (step, reference) = (one.Inspected.Step, one.AtReference);
        writer.WriteString("serial", step.Serial);
        writer.WriteString("part", one.Inspected.Worst.Part);
        writer.WriteString("operation", step.Operation);
        writer.WriteString("machine", step.Machine);
        writer.WriteString("feature", one.Inspected.Feature.Id);
        writer.WriteRounded("hole", reference.WorstHole, 0);
        Number(writer, "deviationUm", reference.Worst.Reported.Micrometres);
        Number(writer, "correctionUm", reference.Worst.CorrectionMicrometres);
        Number(writer, "deviationAt20Um", reference.Worst.Micrometres);
        Number(writer, "deviationAt20LowUm", reference.Worst.Range.Low);
        Number(writer, "deviationAt20HighUm", reference.Worst.Range.High);
        Number(writer, "uUm", reference.Worst.StandardUncertainty);
        writer.WriteString("correction", reference.Worst.Note);
        Number(writer, "toleranceUm", one.Inspected.Feature.ToleranceMillimetres * 1000);
        Number(writer, "budgetUm", one.Inspected.Feature.Budget.MicrometresFor(one.Inspected.Feature.ToleranceMillimetres));
        writer.WriteBoolean("inTolerance", one.Inspected.InTolerance);
        Number(writer, "predictedUm", one.PredictedMicrometres);
        Number(writer, "uPredictedUm", one.Recomputed?.UMicrometres);
        Number(writer, "weighedUm", one.Case.PredictedMicrometres);
        Number(writer, "uWeighedUm", one.Case.UPredicted);
        Number(writer, "frozenUm", one.Frozen is { } frozen ? double.IsFinite(frozen.MeanMicrometres) ? frozen.MeanMicrometres : frozen.WorstMicrometres : null);
        Number(writer, "shareOfDeviation", one.Case.Share);
        writer.WriteNumber("level", (int)one.Verdict.Level);
        writer.WriteString("verdict", one.Verdict.Wording);
        writer.WriteString("inToleranceAtZeroEffect", one.AtZeroEffect.Word);
        Number(writer, "restUm", one.AtZeroEffect.RestMicrometres);
    }

    private static void Work(Utf8JsonWriter writer, WorkStep step)
    {
        writer.WriteStartObject("work");
        writer.WriteString("formerSerial", step.FormerSerial);
        writer.WriteString("pallet", step.Pallet);
        writer.WriteString("nest", step.Nest);
        writer.WriteString("batch", step.Batch);
        writer.WriteString("operator", step.Operator);
        writer.WriteString("program", step.Program);
        writer.WriteTexts("tools", step.Tools);
        writer.WriteTime("enteredCell", step.EnteredCell);
        writer.WriteTime("loaded", step.Begin);
        writer.WriteTime("unloaded", step.End);
        writer.WriteString("boundary", step.Boundary switch { CutBoundary.Cut => "cut", CutBoundary.Request => "request", _ => "job" });
        writer.WriteArray("cuts", step.Cuts, static (w, cut) =>
        {
            w.WriteStartObject();
            w.WriteString("feature", cut.Feature);
            w.WriteRounded("hole", cut.Hole, 0);
            w.WriteTime("start", cut.Start);
            w.WriteTime("end", cut.End);
            w.WriteString("tool", cut.Tool);
            w.WriteEndObject();
        });
        writer.WriteEndObject();
    }

    private static void Value(Utf8JsonWriter writer, InspectionValue value, bool counts)
    {
        writer.WriteStartObject();
        writer.WriteRounded("hole", value.Hole, 0);
        Number(writer, "deviationUm", value.DeviationMicrometres);
        Number(writer, "dxUm", value.DxMicrometres);
        Number(writer, "dyUm", value.DyMicrometres);
        Number(writer, "uUm", value.UMicrometres);
        writer.WriteTime("measuredAt", value.MeasuredAt);
        writer.WriteString("device", value.Device);
        writer.WriteString("compensation", CompensationWords.Word(value.Compensation));
        Number(writer, "partC", value.PartCelsius);
        Number(writer, "deviceC", value.DeviceCelsius);
        writer.WriteNumber("line", value.Line);
        writer.WriteBoolean("counts", counts);
        writer.WriteEndObject();
    }

    private static void Prediction(Utf8JsonWriter writer, string name, Prediction? prediction)
    {
        if (prediction is null)
        {
            writer.WriteNull(name);
            return;
        }

        writer.WriteStartObject(name);
        Number(writer, "meanUm", prediction.MeanMicrometres);
        Number(writer, "worstUm", prediction.WorstMicrometres);
        Number(writer, "uUm", prediction.UMicrometres);
        Number(writer, "probability", prediction.Probability);
        writer.WriteTime("at", prediction.At);
        writer.WriteString("source", prediction.Source);
        writer.WriteEndObject();
    }

    private static void Exposure(Utf8JsonWriter writer, Exposure? exposure)
    {
        if (exposure is null)
        {
            writer.WriteNull("exposure");
            return;
        }

        writer.WriteStartObject("exposure");
        writer.WriteTime("from", exposure.From);
        writer.WriteTime("to", exposure.To);
        Number(writer, "knownShare", exposure.KnownShare);
        Number(writer, "meanEpsUmPerM", exposure.MeanEps);
        Number(writer, "epsChangeUmPerM", exposure.EpsChange);
        Number(writer, "driftXUm", exposure.MeanDrift.X);
        Number(writer, "driftYUm", exposure.MeanDrift.Y);
        Number(writer, "driftZUm", exposure.MeanDrift.Z);
        Number(writer, "mostDriftUmPerMin", exposure.MostDriftRate);
        Number(writer, "partMinusAirK", exposure.PartMinusAir);
        Number(writer, "mostPartMinusAirK", exposure.MostPartMinusAir);
        Number(writer, "partMinusScaleK", exposure.PartMinusScale);
        Number(writer, "partMinusCoolantK", exposure.PartMinusCoolant);
        Number(writer, "soakRatio", exposure.SoakRatio);
        Number(writer, "spindleLoad", exposure.SpindleLoad);
        Number(writer, "gradientK", exposure.GradientKelvins);
        Number(writer, "doseUmMin", exposure.DoseMicrometreMinutes);
        Number(writer, "naiveAirK", exposure.NaiveAirKelvins);
        writer.WriteEndObject();
    }

    private static void Contained(Utf8JsonWriter writer, ExposedPart part)
    {
        writer.WriteStartObject();
        writer.WriteString("serial", part.Serial);
        writer.WriteString("machine", part.Machine);
        writer.WriteTime("cutAt", part.CutAt);
        Number(writer, "predictedUm", part.PredictedMicrometres);
        writer.WriteBoolean("inspected", part.Inspected);
        if (part.InTolerance is { } good)
        {
            writer.WriteBoolean("inTolerance", good);
        }
        else
        {
            writer.WriteNull("inTolerance");
        }

        Number(writer, "residualRisk", part.ResidualRisk);
        writer.WriteEndObject();
    }
}
