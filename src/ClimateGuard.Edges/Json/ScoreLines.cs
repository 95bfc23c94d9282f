using System.Text.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>Reads lines of the ledger, and of a replay, for the scoreboard.</summary>
public static class ScoreLines
{
    /// <summary>What a line says to the scoreboard, or null when it says nothing to it.</summary>
    /// <remarks>A line that something else than a worker wrote may lack fields; it says nothing then.</remarks>
    /// <param name="line">The line.</param>
    /// <param name="cell">The cell, for the features that were inspected.</param>
    public static ScoreFact? Of(LedgerLine line, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(cell);
        if (line.Machine is not { } machine || !LedgerLine.IsOneObjectOnOneLine(line.Json))
        {
            return null;
        }

        using var content = JsonDocument.Parse(line.Json);
        var root = content.RootElement;
        var shadow = root.TryGetProperty("shadow", out var mark) && mark.ValueKind == JsonValueKind.True;
        var work = new WorkOnMachine(machine, root.Text("serial"), root.Text("operation"));
        return line.Kind switch
        {
            LedgerKinds.Outlook => new LevelSaid(line.Time, machine, shadow, work, root.Text("level"), Prediction(root)) { Features = Predictions(root) },
            LedgerKinds.Answer => new AnswerSaid(line.Time, machine, shadow, work, root.Text("answer"), Prediction(root)) { RequestId = root.Text("requestId"), Features = Predictions(root) },
            LedgerKinds.Score when Score(root, work) is { } score => new HoldJudged(line.Time, machine, shadow, score),
            LedgerKinds.Event when root.Text("type") == EventTypes.CutStarted => new CutBegan(line.Time, machine, shadow, work),
            LedgerKinds.Result when ResultJson.Read(root, cell) is { } value => new ValueInspected(line.Time, machine, shadow, value),
            _ => null,
        };
    }

    internal static string Text(this JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    internal static double? Number(this JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static FrozenPrediction? Prediction(JsonElement root) =>
        (root.Text("feature"), root.Number("worstUm"), root.Number("budgetUm"), root.Number("probability")) is ({ Length: > 0 } feature, { } worst, { } budget, { } probability)
            ? new FrozenPrediction(feature, worst, budget, probability)
            : null;

    private static IReadOnlyList<FrozenPrediction> Predictions(JsonElement root)
    {
        var all = root.TryGetProperty("features", out var list) && list.ValueKind == JsonValueKind.Array
            ? list.EnumerateArray().Where(one => one.ValueKind == JsonValueKind.Object).Select(Prediction).OfType<FrozenPrediction>().ToList() : [];
        return all.Count > 0 ? all : Prediction(root) is { } deciding ? [deciding] : [];
    }

    // Scores of overrides are lines of this kind too; they have no verdict.
    private static HoldScore? Score(JsonElement root, WorkOnMachine work)
    {
        HoldVerdict? verdict = root.Text("verdict") switch
        {
            "confirmed" => HoldVerdict.Confirmed,
            "refuted" => HoldVerdict.Refuted,
            "undecided" => HoldVerdict.Undecided,
            _ => null,
        };
        return verdict is { } known && (root.Number("predictedUm"), root.Number("uUm"), root.Number("measuredUm"), root.Number("budgetUm")) is ({ } predicted, { } u, { } measured, { } budget)
            ? new HoldScore(work.Machine, work.Serial, work.Operation, root.Text("feature"), predicted, u, measured, budget, known, root.Text("measurement"))
            : null;
    }
}
