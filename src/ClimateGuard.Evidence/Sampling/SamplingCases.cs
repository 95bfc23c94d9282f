using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The cases for sampling of an answer, one for each part and feature.</summary>
public static class SamplingCases
{
    /// <summary>Judges every feature of which one inspected part has a known temperature, by part and feature.</summary>
    /// <param name="cell">The cell that knows the parts.</param>
    /// <param name="answer">The analysis.</param>
    public static IReadOnlyList<SamplingCase> Of(Cell cell, EvidenceAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(answer);
        var features = answer.Features.ToLookup(one => (one.Inspected.Worst.Part, one.Inspected.Feature.Id));
        return
        [
            .. from @group in answer.Groups
               let part = cell.FindPart(@group.Part)
               where part is not null
               let all = features[(@group.Part, @group.Feature)].ToArray()
               where all.Length > 0
               let parts = Parts(@group, all)
               where parts.Length > 0
               select SamplingCase.Of(@group.Part, all[0].Inspected.Feature, part.Class, parts, all.Length - parts.Length),
        ];
    }

    private static SamplingPart[] Parts(GroupEvidence group, FeatureEvidence[] features)
    {
        var judged = features.Where(one => one.AtReference.Worst.Micrometres is not null)
            .GroupBy(one => (one.Serial, one.Inspected.Step.Machine, At(one))).ToDictionary(same => same.Key, same => same.Last());
        return
        [
            .. from point in @group.Points
               let one = judged.GetValueOrDefault((point.Serial, point.Machine, point.At))
               where one is not null
               select new SamplingPart(
                   point.At, point.Machine, point.Episode, one.AtReference.Worst.Micrometres!.Value, point.Measured, point.Predicted, point.NaiveAirKelvins, point.OutOfTolerance),
        ];
    }

    private static DateTimeOffset At(FeatureEvidence one) => one.Inspected.Step.Window(one.Inspected.Feature.Id)?.Start ?? one.Inspected.Step.Begin;
}
