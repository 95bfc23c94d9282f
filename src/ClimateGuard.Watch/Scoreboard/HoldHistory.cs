namespace ClimateGuard.Watch;

/// <summary>Reads the holds, their measurements and what was cut without one out of the lines of a ledger, in their order.</summary>
/// <remarks>The same lines give the same history. Owned by one caller, not safe across threads.</remarks>
public sealed class HoldHistory
{
    private readonly List<HeldWork> holds = [];
    private readonly Dictionary<string, int> standing = new(StringComparer.Ordinal);
    private readonly Dictionary<WorkOnMachine, int> newest = [];
    private readonly Dictionary<WorkOnMachine, Dictionary<string, FrozenPrediction>> predicted = [];
    private readonly Dictionary<WorkOnMachine, CutWork> cuts = [];
    private readonly List<ValueInspected> inspected = [];

    /// <summary>The holds, by their begin.</summary>
    public IReadOnlyList<HeldWork> Holds => holds;

    /// <summary>What was cut, with what had been predicted of it when it began.</summary>
    public IReadOnlyDictionary<WorkOnMachine, CutWork> Cuts => cuts;

    /// <summary>The inspected values, in the order they came in.</summary>
    public IReadOnlyList<ValueInspected> Inspected => inspected;

    /// <summary>The time of the first and the newest line taken, or null.</summary>
    public (DateTimeOffset First, DateTimeOffset Last)? Span { get; private set; }

    /// <summary>Takes the next line.</summary>
    /// <param name="fact">What it says.</param>
    public void Take(ScoreFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        Span = (Span?.First ?? fact.Time, Span is { } known && known.Last > fact.Time ? known.Last : fact.Time);
        switch (fact)
        {
            case LevelSaid said:
                Predict(said.Work, said.Prediction);
                Take(said);
                break;
            case AnswerSaid answer:
                Predict(answer.Work, answer.Prediction);
                Take(answer);
                break;
            case HoldJudged judged:
                Take(judged);
                break;
            case CutBegan cut:
                var before = predicted.GetValueOrDefault(cut.Work);
                cuts.TryAdd(cut.Work, new CutWork(cut.Work, cut.Time, before is null ? [] : [.. before.Values], cut.Shadow));
                break;
            case ValueInspected value:
                inspected.Add(value);
                break;
        }
    }

    /// <summary>Whether this work was ever held, or would have been.</summary>
    /// <param name="work">The work.</param>
    public bool WasHeld(WorkOnMachine work) => newest.ContainsKey(work);

    private void Predict(WorkOnMachine work, FrozenPrediction? prediction)
    {
        if (prediction is null || work.Serial.Length == 0)
        {
            return;
        }

        if (!predicted.TryGetValue(work, out var features))
        {
            predicted.Add(work, features = new Dictionary<string, FrozenPrediction>(StringComparer.Ordinal));
        }

        features[prediction.Feature] = prediction;
    }

    private void Take(LevelSaid said)
    {
        var held = said.Level == Level.Hold.Word();
        if (standing.TryGetValue(said.Machine, out var index))
        {
            if (held && holds[index].Work == said.Work && holds[index].Shadow == said.Shadow)
            {
                holds[index] = holds[index].With(said.Prediction);
                return;
            }

            holds[index] = holds[index] with { End = said.Time, Overridden = said.Level == Level.Bypassed.Word() && holds[index].Work == said.Work };
            standing.Remove(said.Machine);
        }

        if (held)
        {
            holds.Add(new HeldWork { Work = said.Work, Begin = said.Time, Shadow = said.Shadow, Prediction = said.Prediction });
            standing[said.Machine] = newest[said.Work] = holds.Count - 1;
        }
    }

    // The answer stands before the outlook that shows the hold, as the control does not wait for the page.
    private void Take(AnswerSaid answer)
    {
        if (answer.Answer != "HOLD" || answer.Prediction is null)
        {
            return;
        }

        if (standing.TryGetValue(answer.Machine, out var index) && holds[index].Work == answer.Work)
        {
            holds[index] = holds[index].With(answer.Prediction) with { AskedAt = holds[index].AskedAt ?? answer.Time };
            return;
        }

        holds.Add(new HeldWork
        {
            Work = answer.Work, Begin = answer.Time, AskedAt = answer.Time, Shadow = answer.Shadow, Prediction = answer.Prediction,
        });
        standing[answer.Machine] = newest[answer.Work] = holds.Count - 1;
    }

    private void Take(HoldJudged judged)
    {
        var work = new WorkOnMachine(judged.Machine, judged.Score.Serial, judged.Score.Operation);
        if (newest.TryGetValue(work, out var index))
        {
            holds[index] = holds[index].With(judged.Score, judged.Time);
        }
    }
}

/// <summary>A finish cut that began.</summary>
/// <param name="Work">What was cut.</param>
/// <param name="Begin">When.</param>
/// <param name="Predicted">What had been predicted of its features, each by the last line that named it.</param>
/// <param name="Shadow">Kept by a shadow.</param>
public sealed record CutWork(WorkOnMachine Work, DateTimeOffset Begin, IReadOnlyList<FrozenPrediction> Predicted, bool Shadow);
