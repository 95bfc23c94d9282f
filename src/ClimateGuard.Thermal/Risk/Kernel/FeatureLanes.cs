using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What the features of a part see of sixty-four paths: mismatch, drift, and for each feature the worst so far.</summary>
/// <remarks>
/// A linear feature keeps max |E|. A position keeps only whether it ever left its budget: the corners of its hull are looked at for four paths
/// together when the simple bound |eps·r| + |D| says that one of them might be out, so the answer is exact and rarely costs more than the bound.
/// </remarks>
internal sealed class FeatureLanes
{
    private const int Lanes = PathBlock.Lanes;
    private const int Vector = 4;

    // The share of a term that is not known, spread evenly over the paths of a block: all else on a path is drawn, so no draw is spent on it.
    private static readonly double[] TermDeviations = [.. Enumerable.Range(0, Lanes).Select(path => StandardNormal.Quantile((path + 0.5) / Lanes))];

    private readonly KernelLayout layout;
    private readonly FeatureLane[] features;
    private readonly double referenceCelsius;
    private readonly bool anyPattern;
    private readonly double[] part = new double[Lanes];
    private readonly double[] eps = new double[Lanes];
    private readonly double[] length = new double[Lanes];
    private readonly double[] drift = new double[3 * Lanes];
    private readonly double[] start = new double[3 * Lanes];
    private readonly double[] since = new double[3 * Lanes];
    private readonly double[] worst;
    private int open;

    public FeatureLanes(ThermalModel model, KernelLayout layout)
    {
        this.layout = layout;
        referenceCelsius = model.ReferenceCelsius;
        features = [.. model.Effects.Select(effect => new FeatureLane(effect))];
        anyPattern = features.Any(feature => feature.Kind is LaneKind.Pattern);
        worst = new double[features.Length * Lanes];
    }

    /// <summary>How many features.</summary>
    public int Count => features.Length;

    /// <summary>The cut begins here: nothing has been worst yet, and drift between two cuts counts from now.</summary>
    /// <param name="block">The paths.</param>
    /// <param name="reprobed">The datum is probed at the begin, so that all drift counts from now.</param>
    public void Begin(PathBlock block, bool reprobed)
    {
        Array.Clear(worst);
        open = 0;
        for (var axis = 0; axis < 3; axis++)
        {
            block.Sum(layout.UsedAxes[axis] ? layout.DriftWeights[axis] : [], start.AsSpan(axis * Lanes, Lanes));
        }

        Reprobed = reprobed;
    }

    /// <summary>A mismatch in µm/m that an offset in the control takes off.</summary>
    public double OffsetMicrometresPerMetre { get; set; }

    private bool Reprobed { get; set; }

    /// <summary>Looks at all features that are still being cut.</summary>
    /// <param name="block">The paths.</param>
    /// <param name="medium">What covers the part.</param>
    /// <param name="stepIndex">Which step.</param>
    /// <param name="lastStep">The last step of each feature.</param>
    public void Look(PathBlock block, Medium medium, int stepIndex, ReadOnlySpan<int> lastStep)
    {
        Read(block, medium);
        for (var f = 0; f < features.Length; f++)
        {
            if (stepIndex > lastStep[f])
            {
                continue;
            }

            var feature = features[f];
            var moved = Reprobed || feature.FromCutStart ? since : drift;
            var record = worst.AsSpan(f * Lanes, Lanes);
            switch (feature.Kind)
            {
                case LaneKind.Along:
                    LookAlong(feature, moved, record);
                    break;
                case LaneKind.Plane:
                    LookPlane(feature, moved, record);
                    break;
                case LaneKind.Pattern:
                    LookPattern(feature, moved, record);
                    break;
                default:
                    LookOneByOne(feature, block, moved, record);
                    break;
            }
        }
    }

    /// <summary>Whether a feature left its budget on a path.</summary>
    public bool Exceeded(int feature, int path) => worst[(feature * Lanes) + path] > features[feature].Limit;

    /// <summary>Whether every feature that is cut after a step has left its budget on every path, so that the rest of the cut tells nothing new.</summary>
    /// <param name="stepIndex">The step just looked at.</param>
    /// <param name="lastStep">The last step of each feature.</param>
    public bool AllOut(int stepIndex, ReadOnlySpan<int> lastStep)
    {
        // What is out stays out: each place is passed once in a cut.
        while (open < worst.Length && (lastStep[open / Lanes] <= stepIndex || Exceeded(open / Lanes, open % Lanes)))
        {
            open++;
        }

        return open == worst.Length;
    }

    /// <summary>Whether on every path that is not settled some feature has left its budget.</summary>
    /// <param name="settled">The paths that are not asked about.</param>
    public bool NoneSafe(ReadOnlySpan<bool> settled)
    {
        while (open < Lanes && (settled[open] || AnyExceeded(open)))
        {
            open++;
        }

        return open == Lanes;
    }

    /// <summary>Whether any feature left its budget on a path.</summary>
    public bool AnyExceeded(int path)
    {
        for (var f = 0; f < features.Length; f++)
        {
            if (Exceeded(f, path))
            {
                return true;
            }
        }

        return false;
    }

    private void Read(PathBlock block, Medium medium)
    {
        block.Sum(layout.PartSlots[medium], part);
        for (var axis = 0; axis < 3; axis++)
        {
            if (layout.UsedAxes[axis])
            {
                block.Sum(layout.DriftWeights[axis], drift.AsSpan(axis * Lanes, Lanes));
            }
        }

        var reference = Vector256.Create(referenceCelsius);
        var offset = Vector256.Create(OffsetMicrometresPerMetre);
        for (var at = 0; at < Lanes; at += Vector)
        {
            var scale = At(block.Values, (layout.SlotOf(StateLayout.Scale) * Lanes) + at);
            var scaleGain = At(block.Values, (block.ScaleGain * Lanes) + at);
            var partGain = At(block.Values, (block.PartGain * Lanes) + at);
            ((scaleGain * (scale - reference)) - (partGain * (At(part, at) - reference)) - offset).StoreUnsafe(ref eps[at]);
        }

        for (var at = 0; at < 3 * Lanes; at += Vector)
        {
            (At(drift, at) - At(start, at)).StoreUnsafe(ref since[at]);
        }

        if (anyPattern)
        {
            var moved = Reprobed ? since : drift;
            for (var at = 0; at < Lanes; at += Vector)
            {
                var (x, y) = (At(moved, at), At(moved, Lanes + at));
                Vector256.Sqrt((x * x) + (y * y)).StoreUnsafe(ref length[at]);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> At(double[] array, int index) => Vector256.LoadUnsafe(ref array[index]);

    private void LookAlong(FeatureLane feature, double[] moved, Span<double> record)
    {
        var metres = Vector256.Create(feature.Linear.LengthMetres);
        if (feature.OnlyAxis >= 0)
        {
            var along = Vector256.Create(feature.AlongOnlyAxis);
            for (var at = 0; at < Lanes; at += Vector)
            {
                ref var most = ref record[at];
                var effect = (metres * At(eps, at)) + (along * At(moved, (feature.OnlyAxis * Lanes) + at));
                Vector256.Max(Vector256.LoadUnsafe(ref most), Vector256.Abs(effect)).StoreUnsafe(ref most);
            }

            return;
        }

        var (alongX, alongY, alongZ) = (Vector256.Create(feature.Linear.X), Vector256.Create(feature.Linear.Y), Vector256.Create(feature.Linear.Z));
        for (var at = 0; at < Lanes; at += Vector)
        {
            ref var most = ref record[at];
            var effect = (metres * At(eps, at)) + (alongX * At(moved, at)) + (alongY * At(moved, Lanes + at)) + (alongZ * At(moved, (2 * Lanes) + at));
            Vector256.Max(Vector256.LoadUnsafe(ref most), Vector256.Abs(effect)).StoreUnsafe(ref most);
        }
    }

    private void LookPlane(FeatureLane feature, double[] moved, Span<double> record)
    {
        var radius = Vector256.Create(feature.RadiusMetres);
        var (takesX, takesY) = (Vector256.Create(feature.TakesX), Vector256.Create(feature.TakesY));
        for (var at = 0; at < Lanes; at += Vector)
        {
            ref var most = ref record[at];
            var radial = (radius * At(eps, at)) + (takesX * At(moved, at));
            var tangential = takesY * At(moved, Lanes + at);
            Vector256.Max(Vector256.LoadUnsafe(ref most), (radial * radial) + (tangential * tangential)).StoreUnsafe(ref most);
        }
    }

    private void LookPattern(FeatureLane feature, double[] moved, Span<double> record)
    {
        var radius = Vector256.Create(feature.RadiusMetres);
        var inside = Vector256.Create(feature.SafeRadius);
        var limit = Vector256.Create(feature.Limit);
        for (var at = 0; at < Lanes; at += Vector)
        {
            var mismatch = At(eps, at);
            var outer = (radius * Vector256.Abs(mismatch)) + At(length, at);
            ref var most = ref record[at];
            var open = Vector256.GreaterThan(outer, inside) & Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref most), limit);
            if (open != Vector256<double>.Zero)
            {
                var squared = WorstCorner(feature.Corners, mismatch, At(moved, at), At(moved, Lanes + at), feature.OtherSide);
                Vector256.Max(Vector256.LoadUnsafe(ref most), squared).StoreUnsafe(ref most);
            }
        }
    }

    private static Vector256<double> WorstCorner(
        (double X, double Y)[] corners, Vector256<double> mismatch, Vector256<double> x, Vector256<double> y, IndexedSide? otherSide)
    {
        var worst = Vector256<double>.Zero;
        foreach (var (rx, ry) in corners)
        {
            var (ex, ey) = (mismatch * rx, mismatch * ry);
            var (dx, dy) = (ex + x, ey + y);
            worst = Vector256.Max(worst, (dx * dx) + (dy * dy));
            if (otherSide is { } side)
            {
                (dx, dy) = (ex + (x * side.X), ey + (y * side.Y));
                worst = Vector256.Max(worst, (dx * dx) + (dy * dy));
            }
        }

        return worst;
    }

    /// <summary>A feature with terms of its own, or a shape of sum that has no loop yet: slow and right.</summary>
    private void LookOneByOne(FeatureLane feature, PathBlock block, double[] moved, Span<double> record)
    {
        var scale = layout.SlotOf(StateLayout.Scale) * Lanes;
        var fixture = layout.SlotOf(StateLayout.Fixture) * Lanes;
        for (var path = 0; path < Lanes; path++)
        {
            var terms = feature.Effect.Terms.Count == 0 ? default : feature.Effect.TermsAt(
                part[path] - referenceCelsius,
                block.Values[scale + path] - referenceCelsius,
                fixture < 0 ? 0 : block.Values[fixture + path] - referenceCelsius,
                TermDeviations[path]);
            var effect = feature.Effect.EffectAt(eps[path], new(moved[path], moved[Lanes + path], moved[(2 * Lanes) + path]), terms);
            record[path] = Math.Max(record[path], Math.Abs(effect));
        }
    }
}
