using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>The report of one serial for the review board, as blocks; each form of it is written from the same blocks.</summary>
/// <remarks>No clock and no chance in it: the same data give the same bytes. What people decide is left empty.</remarks>
internal sealed class BoardReport
{
    private readonly BoardData data;
    private readonly string serial;
    private readonly List<Block> blocks = [];

    private BoardReport(BoardData data, string serial) => (this.data, this.serial) = (data, serial);

    /// <summary>The blocks of a report, or null when nothing of the serial was inspected.</summary>
    public static IReadOnlyList<Block>? Of(BoardData data, string serial)
    {
        FeatureEvidence[] features = [.. data.Answer.Features.Where(one => one.Serial == serial || one.Inspected.Step.FormerSerial == serial)];
        return features.Length == 0 ? null : new BoardReport(data, features[0].Serial).Compose(features);
    }

    private List<Block> Compose(FeatureEvidence[] features)
    {
        blocks.Add(new Heading(1, $"Did temperature cause it? Serial {serial}"));
        blocks.Add(new Paragraph($"{features[0].Inspected.Worst.Part}, {data.Cell.Description.Name}. All lengths in µm, positive: larger or farther from the datum than nominal at 20 °C; positions diametral, 2·|d|."));
        Summary(features);
        Genealogy();
        foreach (var one in features)
        {
            blocks.AddRange(FeatureSections.Of(data, one));
        }

        Validity(features);
        Disposition();
        Sources(features);
        return blocks;
    }

    private void Summary(FeatureEvidence[] features)
    {
        blocks.Add(new Heading(2, "1 Identification and verdict"));
        blocks.Add(new TableBlock(
            ["feature", "operation, machine", "measured at 20 °C", "tolerance", "predicted", "in tolerance", "without temperature", "level and verdict"],
            [
                .. features.Select(one => (IReadOnlyList<string>)
                [
                    one.Inspected.Feature.Id + (one.AtReference.WorstHole is { } hole ? $", hole {hole}" : ""), $"{one.Inspected.Step.Operation}, {one.Inspected.Step.Machine}",
                    ReportWords.PlusMinus(one.AtReference.Worst.Micrometres, one.AtReference.Worst.StandardUncertainty), ReportWords.Um(one.Inspected.Feature.ToleranceMillimetres * 1000),
                    ReportWords.PlusMinus(one.PredictedMicrometres, one.Recomputed?.UMicrometres), ReportWords.Yes(one.Inspected.InTolerance), one.AtZeroEffect.Word,
                    $"{(int)one.Verdict.Level}: {one.Verdict.Wording}",
                ]),
            ],
            [0.13, 0.11, 0.13, 0.09, 0.12, 0.09, 0.1, 0.23]));
        blocks.Add(new Paragraph("± is one standard uncertainty. \"Without temperature\": whether it would have been in tolerance at zero thermal effect, by 95 % one-sided."));
        blocks.Add(new FillIn("Nonconformance number, revision", 1));
    }

    private void Genealogy()
    {
        blocks.Add(new Heading(2, "2 Route, permits and overrides"));
        var steps = data.Genealogy.OfSerial(serial);
        blocks.Add(new TableBlock(
            ["operation", "machine", "pallet, operator, program, tools, batch", "loaded", "cut", "times from"],
            [
                .. steps.Select(step => (IReadOnlyList<string>)
                [
                    step.Operation, step.Machine, Recorded(step), ReportWords.Time(step.Begin, data.Zone),
                    step.Window() is { } window ? $"{ReportWords.Time(window.Start, data.Zone)} to {ReportWords.Time(window.End, data.Zone)}" : "not recorded",
                    step.Boundary switch { CutBoundary.Cut => "cut", CutBoundary.Request => "permit request", _ => "job" },
                ]),
            ],
            [0.09, 0.08, 0.27, 0.18, 0.28, 0.1]));
        IReadOnlyList<string>[] said =
        [
            .. steps.SelectMany(step => data.Proceedings.Of(step.Machine, step.FormerSerial ?? step.Serial, step.Operation).Concat(step.FormerSerial is null ? [] : data.Proceedings.Of(step.Machine, step.Serial, step.Operation)))
                .OrderBy(line => line.Time).Select(line => (IReadOnlyList<string>)[ReportWords.Time(line.Time, data.Zone), line.Text]),
        ];
        blocks.Add(said.Length > 0 ? new TableBlock(["time", "holds, answers, overrides, measurements"], said, [0.22, 0.78]) : new Paragraph("No hold, request or override of this serial is recorded."));
        if (data.OnlyExposures) blocks.Add(new Paragraph("Holds are not in this list: over so long a span only temperatures were followed, with one outlook before each cut. Replay a shorter span around the cut to see them."));
    }

    private static string Recorded(WorkStep step)
    {
        (string Name, string? Value)[] known =
        [
            ("pallet", step.Pallet), ("nest", step.Nest), ("operator", step.Operator), ("program", step.Program), ("tools", step.Tools.Count > 0 ? string.Join(", ", step.Tools) : null),
            ("batch", step.Batch), ("loaded as", step.FormerSerial),
        ];
        string[] said = [.. known.Where(one => one.Value is not null).Select(one => $"{one.Name} {one.Value}")];
        return said.Length > 0 ? string.Join("; ", said) : "none of these recorded";
    }

    private void Validity(FeatureEvidence[] features)
    {
        blocks.Add(new Heading(2, "How far the model may be trusted"));
        foreach (var machine in features.Select(one => one.Inspected.Step.Machine).Distinct(StringComparer.Ordinal))
        {
            if (data.Answer.Validity.FirstOrDefault(one => one.Machine == machine) is not { } validity)
            {
                continue;
            }

            blocks.Add(new Paragraph(FormattableString.Invariant(
                $"{machine}: {(validity.Valid ? "valid" : "not validated: " + validity.NotValidBecause)}. {validity.Checks.Count} checks, {ReportWords.Share(validity.Coverage)} within two standard uncertainties, bias of re-probes {ReportWords.Um(validity.BiasMicrometres)} µm. Drift sensitivities: {validity.DriftSource}.")));
            if (validity.Checks.Count > 0)
            {
                blocks.Add(new TableBlock(
                    ["time", "serial", "measurement", "predicted", "measured", "agrees"],
                    [
                        .. validity.Checks.Select(check => (IReadOnlyList<string>)
                        [
                            ReportWords.Time(check.Time, data.Zone), ReportWords.Or(check.Serial), check.Kind + (check.Kind == "contact" ? ", °C" : ", µm"),
                            ReportWords.PlusMinus(check.Predicted, check.UPredicted), ReportWords.PlusMinus(check.Measured, check.UMeasured), ReportWords.Yes(check.Agrees),
                        ]),
                    ],
                    [0.25, 0.2, 0.15, 0.15, 0.15, 0.1]));
            }
        }

        foreach (var material in features.Select(one => one.Cut?.Part.Material).OfType<Plant.Material>().DistinctBy(material => material.Id))
        {
            blocks.Add(new Paragraph(FormattableString.Invariant($"Expansion of {material.Id}: {material.AlphaMicrometresPerMetreKelvin:0.0#} ± {material.UAlphaMicrometresPerMetreKelvin:0.0#} µm/(m·K), source: {material.Source}.")));
        }
    }

    private void Disposition()
    {
        blocks.Add(new Heading(2, "Disposition, corrective action, signatures"));
        blocks.Add(new Paragraph("Left to people; the tool proposes none."));
        blocks.Add(new FillIn("Disposition", 2));
        blocks.Add(new FillIn("Corrective action, responsible, date", 2));
        blocks.Add(new FillIn("Author", 1));
        blocks.Add(new FillIn("Signatures of the board", 3));
    }

    private void Sources(FeatureEvidence[] features)
    {
        blocks.Add(new Heading(2, "What every number rests on"));
        blocks.Add(new TableBlock(
            ["what", "value"],
            [
                ["program", BoardData.ProgramVersion], ["plant file", data.ConfigVersion], ["readings, SHA-256", data.ReadingsSha256], ["events, SHA-256", data.EventsSha256], ["results, SHA-256", data.ResultsSha256],
                [
                    "readings and events", FormattableString.Invariant($"{data.Readings} readings, {data.Events} events, {ReportWords.Time(data.From, data.Zone)} to {ReportWords.Time(data.To, data.Zone)}"),
                ],
            ],
            [0.25, 0.75]));
        IReadOnlyList<string>[] queries = [.. features.Select(one => one.Cut).OfType<CutExposure>().DistinctBy(cut => (cut.Step.Machine, cut.From)).SelectMany(cut => SourceQueries.Of(data.Cell, cut, data.Zone))];
        blocks.Add(queries.Length > 0
            ? new TableBlock(["id", "stored readings behind the temperatures of the cut", "calibration"], [.. queries.Select((query, i) => (IReadOnlyList<string>)[FormattableString.Invariant($"Q{i + 1}"), query[0], query[1]])], [0.06, 0.62, 0.32])
            : new Paragraph("No stored readings reach these cuts."));
        blocks.Add(new Paragraph("Effects, drift and part temperature follow from these readings, the events and the plant file of that version by the replay of the same program; the same data give the same report, byte for byte."));
    }
}
