using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>What the ledger holds for evidence: events, inspected values, and the predictions as they stood when cuts began.</summary>
internal sealed record LedgerEvidence(
    IReadOnlyList<CellEvent> Events, IReadOnlyList<InspectionValue> Values, string ResultsHead, IReadOnlyDictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>> Frozen)
{
    /// <summary>Reads the ledger from its first line.</summary>
    public static async Task<LedgerEvidence> ReadAsync(ILedgerStore ledger, Cell cell, CancellationToken cancellation)
    {
        var (events, values, files) = (new List<CellEvent>(), new List<InspectionValue>(), new List<string>());
        var said = new Dictionary<WorkOnMachine, Dictionary<string, Prediction>>();
        var frozen = new Dictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>>();
        await foreach (var entry in ledger.AllAsync(0, cancellation))
        {
            var line = entry.Line;
            if (line.Kind == LedgerKinds.ResultFile && ResultJson.FileOf(line) is { } file)
            {
                files.Add(file);
            }

            if (line.Kind == LedgerKinds.Event && EventDecoder.DecodeLine(System.Text.Encoding.UTF8.GetBytes(line.Json)).Event is { } happened)
            {
                events.Add(happened);
            }

            switch (ScoreLines.Of(line, cell))
            {
                case LevelSaid level:
                    Note(said, level.Work, level.Features, entry);
                    break;
                case AnswerSaid answer:
                    Note(said, answer.Work, answer.Features, entry);
                    break;
                case CutBegan cut when said.GetValueOrDefault(cut.Work) is { } known:
                    frozen.TryAdd(cut.Work, new Dictionary<string, Prediction>(known, StringComparer.Ordinal));
                    break;
                case ValueInspected value:
                    values.Add(value.Value);
                    break;
            }
        }

        return new LedgerEvidence(events, values, files.Count == 0 ? "no file" : string.Join(' ', files), frozen);
    }

    // The ledger keeps the largest effect that was expected of each feature.
    private static void Note(
        Dictionary<WorkOnMachine, Dictionary<string, Prediction>> said, WorkOnMachine work, IReadOnlyList<FrozenPrediction> predictions, LedgerEntry entry)
    {
        if (work.Serial.Length == 0 || predictions.Count == 0)
        {
            return;
        }

        if (!said.TryGetValue(work, out var features))
        {
            said.Add(work, features = new Dictionary<string, Prediction>(StringComparer.Ordinal));
        }

        foreach (var prediction in predictions)
        {
            features[prediction.Feature] = new Prediction(
                double.NaN, prediction.EffectMicrometres, double.NaN, prediction.Probability, entry.Line.Time, $"ledger line {entry.Seq}, as it was told then");
        }
    }
}
