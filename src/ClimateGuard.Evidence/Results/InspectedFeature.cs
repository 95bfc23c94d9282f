using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>All inspected values of one feature of one part from one step of work; re-measurements are kept, the last of each hole counts.</summary>
public sealed class InspectedFeature
{
    /// <summary>Puts the values of a feature together.</summary>
    /// <param name="step">The step that made it.</param>
    /// <param name="values">One or more, of this feature and step, in the order they came in.</param>
    public InspectedFeature(WorkStep step, IReadOnlyList<InspectionValue> values)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0) throw new ArgumentException("A feature that was inspected has a value.", nameof(values));
        Step = step;
        All = values;
        Valid = [.. values.GroupBy(value => value.Hole).Select(same => same.OrderBy(value => value.MeasuredAt ?? DateTimeOffset.MinValue).Last()).OrderBy(value => value.Hole ?? 0)];
        Worst = Valid.MaxBy(value => Math.Abs(value.DeviationMicrometres))!;
        InTolerance = Valid.All(value => value.InTolerance);
    }

    /// <summary>The step that made it.</summary>
    public WorkStep Step { get; }

    /// <summary>The feature.</summary>
    public Feature Feature => Valid[0].Feature;

    /// <summary>Every value that came in.</summary>
    public IReadOnlyList<InspectionValue> All { get; }

    /// <summary>The values that count: the last of each hole.</summary>
    public IReadOnlyList<InspectionValue> Valid { get; }

    /// <summary>The value farthest from nominal: it decides about the part.</summary>
    public InspectionValue Worst { get; }

    /// <summary>The earlier values that a later one of the same hole replaced.</summary>
    public IReadOnlyList<InspectionValue> Replaced => [.. All.Except(Valid, ReferenceEqualityComparer.Instance).Cast<InspectionValue>()];

    /// <summary>Every value lies in the tolerance.</summary>
    public bool InTolerance { get; }

    /// <summary>The holes with their vectors as reported, with the number of each, from 1.</summary>
    public IReadOnlyList<(int Hole, HoleDeviation Deviation)> Vectors => Feature is PositionFeature pattern
        ?
        [
            .. Valid.Where(value => value is { Hole: not null, DxMicrometres: not null, DyMicrometres: not null } && value.Hole >= 1 && value.Hole <= pattern.Points.Count)
                .Select(value => (value.Hole!.Value, new HoleDeviation(
                    pattern.Points[value.Hole.Value - 1].X, pattern.Points[value.Hole.Value - 1].Y, value.DxMicrometres!.Value, value.DyMicrometres!.Value))),
        ]
        : [];
}
