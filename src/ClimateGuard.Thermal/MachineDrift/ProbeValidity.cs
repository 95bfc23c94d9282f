using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How long a probed datum may be trusted for one feature.</summary>
/// <remarks>
/// Along each axis the drift may take B/gain: half the budget of a position (it is diametral), a quarter of a coaxiality cut with a half-turn
/// (an error of the pivot comes back twice, as a diameter four times), a half of a turned diameter. The datum is valid as long as |D| + k·u
/// stays within that; on a straight course t = (B_drift − k·u)/|dD/dt|. Immutable.
/// </remarks>
public sealed record ProbeValidity
{
    /// <summary>How far is looked.</summary>
    public static readonly TimeSpan Horizon = TimeSpan.FromHours(24);

    /// <summary>What probing the datum again costs when nobody says (common practice, no source).</summary>
    public static readonly TimeSpan UsualProbing = TimeSpan.FromMinutes(2);

    /// <summary>The datum is not probed again more often than every so many times what probing takes (common practice, no source).</summary>
    public const double LeastProbings = 10;

    private static readonly TimeSpan Step = TimeSpan.FromMinutes(1);

    /// <summary>How long the present datum is still valid: zero when it is not any more, null when beyond the horizon.</summary>
    public required TimeSpan? Remaining { get; init; }

    /// <summary>How long a datum probed now will be valid, null when beyond the horizon.</summary>
    public required TimeSpan? WhenProbedNow { get; init; }

    /// <summary>The axis that ends it first.</summary>
    public required Axis Axis { get; init; }

    /// <summary>What drift along that axis may take, in µm.</summary>
    public required double DriftBudgetMicrometres { get; init; }

    /// <summary>The fastest drift along that axis that is expected while a datum probed now is valid, in µm/h, 0 or more.</summary>
    public required double FastestMicrometresPerHour { get; init; }

    /// <summary>How often to set the datum to zero: drift budget over fastest drift, never shorter than ten times what probing takes; null when never.</summary>
    public required TimeSpan? Interval { get; init; }

    /// <summary>Works it out for one feature.</summary>
    /// <param name="model">The model of the machine with its part.</param>
    /// <param name="state">The state now; it is not changed.</param>
    /// <param name="feature">A feature of the model.</param>
    /// <param name="surroundings">What surrounds the machine from now on.</param>
    /// <param name="policies">The guard factor k.</param>
    /// <param name="airCelsius">The air forecast, a value for each minute; null when it is expected to stay.</param>
    /// <param name="probing">What probing takes; null for the usual.</param>
    /// <returns>The validity, or null for a feature that drift of the datum does not touch.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature in use is not finite.</exception>
    public static ProbeValidity? For(
        ThermalModel model,
        ThermalState state,
        FeatureModel feature,
        Surroundings surroundings,
        Policies policies,
        IReadOnlyList<double>? airCelsius = null,
        TimeSpan? probing = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(feature);
        ArgumentNullException.ThrowIfNull(policies);
        var courses = Enum.GetValues<Axis>()
            .Select(axis => (Axis: axis, Limit: feature.BudgetMicrometres / Gain(feature, axis)))
            .Where(pair => double.IsFinite(pair.Limit))
            .Select(pair => new DriftCourse(model, pair.Axis, pair.Limit, policies.GuardFactor))
            .ToArray();
        if (courses.Length == 0)
        {
            return null;
        }

        Walk(model, state, surroundings, airCelsius ?? [], courses);
        var first = courses.MinBy(course => (course.ProbedNow ?? TimeSpan.MaxValue, course.Remaining ?? TimeSpan.MaxValue, -course.Fastest / course.Limit))!;
        var shortest = (probing ?? UsualProbing) * LeastProbings;
        var hours = first.Fastest > 0 ? first.Limit / first.Fastest : double.PositiveInfinity;
        return new ProbeValidity
        {
            Remaining = courses.Min(course => course.Remaining ?? TimeSpan.MaxValue) is var least && least == TimeSpan.MaxValue ? null : least,
            WhenProbedNow = first.ProbedNow,
            Axis = first.Axis,
            DriftBudgetMicrometres = first.Limit,
            FastestMicrometresPerHour = first.Fastest,
            Interval = hours > 1e4 ? null : TimeSpan.FromHours(Math.Max(hours, shortest.TotalHours)),
        };
    }

    private static double Gain(FeatureModel feature, Axis axis)
    {
        var unit = Displacement.Along(axis, 1);
        return Math.Abs(feature.Geometry.Near(0, unit.X, unit.Y, unit.Z).At(0, unit.X, unit.Y, unit.Z));
    }

    private static void Walk(
        ThermalModel model, ThermalState state, Surroundings surroundings, IReadOnlyList<double> air, DriftCourse[] courses)
    {
        var since = state.Copy();
        var probed = state.Copy();
        model.ProbeDatum(probed, Enum.GetValues<Axis>());
        foreach (var course in courses)
        {
            course.Look(since, probed, TimeSpan.Zero);
        }

        for (var minute = 0; minute < Horizon.TotalMinutes && surroundings.Medium != Medium.Still; minute++)
        {
            var around = air.Count == 0 ? surroundings : surroundings with { AirCelsius = air[Math.Min(minute, air.Count - 1)] };
            model.Advance(since, around, Step);
            model.Advance(probed, around, Step);
            foreach (var course in courses)
            {
                course.Look(since, probed, Step * (minute + 1));
            }
        }
    }

    /// <summary>The drift along one axis over the forecast.</summary>
    private sealed class DriftCourse(ThermalModel model, Axis axis, double limit, double k)
    {
        private double? before;

        public Axis Axis => axis;

        public double Limit => limit;

        public double Fastest { get; private set; }

        public TimeSpan? Remaining { get; private set; }

        public TimeSpan? ProbedNow { get; private set; }

        public void Look(ThermalState since, ThermalState probed, TimeSpan at)
        {
            var now = model.DriftMicrometres(probed, axis);
            if (before is { } last && ProbedNow is null)
            {
                Fastest = Math.Max(Fastest, Math.Abs(now - last) / Step.TotalHours);
            }

            before = now;
            Remaining ??= Exceeds(since) ? at : null;
            ProbedNow ??= Exceeds(probed) ? at : null;
        }

        private bool Exceeds(ThermalState state) =>
            Math.Abs(model.DriftMicrometres(state, axis)) + (k * model.DriftUncertainty(state, axis)) > limit;
    }
}
