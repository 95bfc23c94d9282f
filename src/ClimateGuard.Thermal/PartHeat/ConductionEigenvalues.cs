using System.Collections.Concurrent;
using MathNet.Numerics;
using MathNet.Numerics.RootFinding;

namespace ClimateGuard.Thermal;

/// <summary>The roots and coefficients of the conduction series of a body with convection at its surface.</summary>
/// <remarks>
/// Wall ζ·tan ζ = Bi; cylinder ζ·J₁(ζ)/J₀(ζ) = Bi; sphere 1 − ζ·cot ζ = Bi (Incropera, Fundamentals of Heat and Mass Transfer,
/// sections 5.5 and 5.6, from memory). Each root is bracketed by the roots of the two limits Bi → 0 and Bi → ∞, which interlace,
/// so none is missed. Results are remembered per (geometry, Bi); safe across threads.
/// </remarks>
public static class ConductionEigenvalues
{
    /// <summary>The largest number of modes given for one body.</summary>
    public const int MaximumCount = 1000;

    /// <summary>The smallest Biot number accepted; below it a body has one temperature to within 1e-6.</summary>
    public const double MinimumBiot = 1e-6;

    private const int RememberedBodies = 512;
    private const double RootAccuracy = 1e-15;

    private static readonly ConcurrentDictionary<(ConductionGeometry Geometry, double Biot), ConductionEigenmode[]> Remembered = new();

    // The brackets of the cylinder are the same for every Biot number; at most 2000 of them.
    private static readonly ConcurrentDictionary<(int Order, int N), double> BesselZeros = new();

    /// <summary>The first modes, in rising order of their eigenvalue.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k with L the half thickness or radius, in [1e-6, ∞]; infinity is a fixed surface temperature.</param>
    /// <param name="count">How many, in [1, 1000].</param>
    /// <returns>Exactly that many modes.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static IReadOnlyList<ConductionEigenmode> First(ConductionGeometry geometry, double biot, int count)
    {
        FormulaInput.InRange(biot, MinimumBiot, double.PositiveInfinity, "");
        FormulaInput.InRange(count, 1, MaximumCount, "modes");
        return new ArraySegment<ConductionEigenmode>(AtLeast(geometry, biot, count), 0, count);
    }

    /// <summary>The first mode, which alone describes the body once Fo exceeds 0.2.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k with L the half thickness or radius, in [1e-6, ∞].</param>
    /// <returns>ζ₁, C₁ and the factors of surface and mean.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The Biot number lies outside its range, or is not a number.</exception>
    public static ConductionEigenmode Leading(ConductionGeometry geometry, double biot) => First(geometry, biot, 1)[0];

    internal static ConductionEigenmode[] AtLeast(ConductionGeometry geometry, double biot, int count)
    {
        var key = (geometry, biot);
        if (Remembered.TryGetValue(key, out var known) && known.Length >= count) return known;
        var length = Math.Min(MaximumCount, Math.Max(count, (known?.Length ?? 2) * 2));
        var modes = new ConductionEigenmode[length];
        known?.CopyTo(modes, 0);
        for (var n = known?.Length ?? 0; n < length; n++) modes[n] = Mode(geometry, Root(geometry, biot, n + 1));
        // A part that changes its heat transfer all day would otherwise fill the memory with Biot numbers nobody asks for again.
        if (Remembered.Count >= RememberedBodies) Remembered.Clear();
        Remembered[key] = modes;
        return modes;
    }

    private static double Root(ConductionGeometry geometry, double biot, int n) => geometry switch
    {
        ConductionGeometry.PlaneWall when double.IsPositiveInfinity(biot) => (n - 0.5) * Math.PI,
        ConductionGeometry.PlaneWall =>
            Between(z => (z * Math.Sin(z)) - (biot * Math.Cos(z)), (n - 1) * Math.PI, (n - 0.5) * Math.PI),
        ConductionGeometry.LongCylinder when double.IsPositiveInfinity(biot) => BesselZero(0, n),
        ConductionGeometry.LongCylinder =>
            Between(z => (z * SpecialFunctions.BesselJ(1, z)) - (biot * SpecialFunctions.BesselJ(0, z)), n == 1 ? 0 : BesselZero(1, n - 1), BesselZero(0, n)),
        ConductionGeometry.Sphere when double.IsPositiveInfinity(biot) => n * Math.PI,
        ConductionGeometry.Sphere =>
            Between(z => (biot * SphereFunction(z)) - (SineMinusAngleCosine(z) / z), n == 1 ? 1e-9 : (n - 1) * Math.PI, n * Math.PI),
        _ => throw new ArgumentOutOfRangeException(nameof(geometry), geometry, "geometry must be a wall, a long cylinder or a sphere."),
    };

    private static double Between(Func<double, double> f, double low, double high) => Brent.FindRoot(f, low, high, RootAccuracy, 200);

    // McMahon's expansion puts the zeros of J0 and J1 into these eighths of π (Abramowitz and Stegun 9.5.12).
    private static double BesselZero(int order, int n) => BesselZeros.GetOrAdd((order, n), static key => key.Order == 0
        ? Between(z => SpecialFunctions.BesselJ(0, z), (key.N - 0.25) * Math.PI, (key.N - 0.125) * Math.PI)
        : Between(z => SpecialFunctions.BesselJ(1, z), (key.N + 0.125) * Math.PI, (key.N + 0.25) * Math.PI));

    private static ConductionEigenmode Mode(ConductionGeometry geometry, double z)
    {
        switch (geometry)
        {
            case ConductionGeometry.PlaneWall:
                return new(z, 4 * Math.Sin(z) / ((2 * z) + Math.Sin(2 * z)), Math.Cos(z), Math.Sin(z) / z);
            case ConductionGeometry.LongCylinder:
                var j0 = SpecialFunctions.BesselJ(0, z);
                var j1 = SpecialFunctions.BesselJ(1, z);
                return new(z, 2 / z * j1 / ((j0 * j0) + (j1 * j1)), j0, 2 * j1 / z);
            default:
                var s = SineMinusAngleCosine(z);
                return new(z, 4 * s / AngleMinusSine(2 * z), SphereFunction(z), 3 * s / (z * z * z));
        }
    }

    /// <summary>f(x*) of a mode.</summary>
    internal static double Shape(ConductionGeometry geometry, double angle) => geometry switch
    {
        ConductionGeometry.PlaneWall => Math.Cos(angle),
        ConductionGeometry.LongCylinder => SpecialFunctions.BesselJ(0, angle),
        _ => SphereFunction(angle),
    };

    private static double SphereFunction(double z) => Math.Abs(z) < 1e-4 ? 1 - (z * z / 6) : Math.Sin(z) / z;

    // sin z − z·cos z cancels to z³/3 for small z, hence the series.
    private static double SineMinusAngleCosine(double z)
    {
        if (z > 0.5) return Math.Sin(z) - (z * Math.Cos(z));
        var q = z * z;
        return z * q * ((1.0 / 3) - (q * ((1.0 / 30) - (q * ((1.0 / 840) - (q * ((1.0 / 45360) - (q / 3991680))))))));
    }

    // y − sin y cancels to y³/6 for small y.
    private static double AngleMinusSine(double y)
    {
        if (y > 0.5) return y - Math.Sin(y);
        var q = y * y;
        return y * q * ((1.0 / 6) - (q * ((1.0 / 120) - (q * ((1.0 / 5040) - (q * ((1.0 / 362880) - (q / 39916800))))))));
    }
}
