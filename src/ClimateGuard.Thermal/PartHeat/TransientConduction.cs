namespace ClimateGuard.Thermal;

/// <summary>How far a body that started at one temperature still is from its medium, by the exact series.</summary>
/// <remarks>
/// θ = (T − T∞)/(Tᵢ − T∞) = Σ Cₙ·exp(−ζₙ²·Fo)·f(ζₙ·x*), roots and coefficients from <see cref="ConductionEigenvalues"/>
/// (Incropera, Fundamentals of Heat and Mass Transfer, sections 5.5 and 5.6, from memory). Bi = h·L/k and Fo = a·t/L², L the half
/// thickness of a wall or the radius. The series is summed until a term is below e⁻⁴⁴, with at most 1000 terms; before Fo = 5e-6,
/// where that would not do, the body is taken as half-infinite, which is within 5e-5 there.
/// </remarks>
public static class TransientConduction
{
    private const double ShortTime = 5e-6;
    private const double NegligibleExponent = 44;

    /// <summary>θ at the centre, in [0, 1].</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Centre(ConductionGeometry geometry, double biot, double fourier) => At(geometry, biot, fourier, 0);

    /// <summary>θ at the surface, in [0, 1].</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞]; at infinity the surface is at the medium's temperature from the start.</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Surface(ConductionGeometry geometry, double biot, double fourier) => At(geometry, biot, fourier, 1);

    /// <summary>θ at a place in the body, in [0, 1].</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <param name="place">x* = x/L from the centre, in [0, 1].</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double At(ConductionGeometry geometry, double biot, double fourier, double place)
    {
        Check(biot, fourier);
        FormulaInput.InRange(place, 0, 1, "");
        if (fourier < ShortTime) return ShortTimeAt(biot, fourier, 1 - place);
        var modes = Modes(geometry, biot, fourier, out var count);
        var sum = 0.0;
        for (var n = count - 1; n >= 0; n--)
        {
            ref readonly var mode = ref modes[n];
            var shape = place == 1 ? mode.SurfaceFactor : ConductionEigenvalues.Shape(geometry, mode.Eigenvalue * place);
            sum += mode.Coefficient * shape * Math.Exp(-mode.Eigenvalue * mode.Eigenvalue * fourier);
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>θ of the mean temperature, in [0, 1]. A uniform part's length follows this one, not the surface.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left in the mean, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Mean(ConductionGeometry geometry, double biot, double fourier)
    {
        Check(biot, fourier);
        if (fourier < ShortTime) return ShortTimeMean(geometry, biot, fourier);
        var modes = Modes(geometry, biot, fourier, out var count);
        var sum = 0.0;
        for (var n = count - 1; n >= 0; n--)
        {
            ref readonly var mode = ref modes[n];
            sum += mode.MeanWeight * Math.Exp(-mode.Eigenvalue * mode.Eigenvalue * fourier);
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>θ of the mean temperature of a short cylinder: the product of a long cylinder and a wall.</summary>
    /// <remarks>The two solutions separate, so values at a place multiply and so do the means (Incropera, section 5.8).</remarks>
    /// <param name="radialBiot">h·r/k, in [1e-6, ∞].</param>
    /// <param name="radialFourier">a·t/r², 0 or more.</param>
    /// <param name="axialBiot">h·L/k with L half the height, in [1e-6, ∞].</param>
    /// <param name="axialFourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left in the mean, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double ShortCylinderMean(double radialBiot, double radialFourier, double axialBiot, double axialFourier) =>
        Mean(ConductionGeometry.LongCylinder, radialBiot, radialFourier) * Mean(ConductionGeometry.PlaneWall, axialBiot, axialFourier);

    /// <summary>θ at a place of a short cylinder: the product of a long cylinder and a wall.</summary>
    /// <param name="radialBiot">h·r/k, in [1e-6, ∞].</param>
    /// <param name="radialFourier">a·t/r², 0 or more.</param>
    /// <param name="radialPlace">r* from the axis, in [0, 1].</param>
    /// <param name="axialBiot">h·L/k with L half the height, in [1e-6, ∞].</param>
    /// <param name="axialFourier">a·t/L², 0 or more.</param>
    /// <param name="axialPlace">x* from the middle plane, in [0, 1].</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double ShortCylinderAt(
        double radialBiot, double radialFourier, double radialPlace, double axialBiot, double axialFourier, double axialPlace) =>
        At(ConductionGeometry.LongCylinder, radialBiot, radialFourier, radialPlace)
        * At(ConductionGeometry.PlaneWall, axialBiot, axialFourier, axialPlace);

    private static void Check(double biot, double fourier)
    {
        FormulaInput.InRange(biot, ConductionEigenvalues.MinimumBiot, double.PositiveInfinity, "");
        FormulaInput.NotNegative(fourier, "");
    }

    // ζₙ lies above (n − 1)·π, so this many terms reach the negligible exponent.
    private static ConductionEigenmode[] Modes(ConductionGeometry geometry, double biot, double fourier, out int count)
    {
        count = Math.Min(ConductionEigenvalues.MaximumCount, 2 + (int)Math.Ceiling(Math.Sqrt(NegligibleExponent / fourier) / Math.PI));
        return ConductionEigenvalues.AtLeast(geometry, biot, count);
    }

    private static double ShortTimeAt(double biot, double fourier, double depth)
    {
        if (fourier == 0) return depth == 0 && double.IsPositiveInfinity(biot) ? 0 : 1;
        var root = Math.Sqrt(fourier);
        var xi = depth / (2 * root);
        return double.IsPositiveInfinity(biot)
            ? 1 - ComplementaryError.Of(xi)
            : 1 - SemiInfinite.ConvectionResponse(xi, biot * root);
    }

    // Heat that crossed the surface of a half-infinite body, spread over the volume: A·L/V is 1, 2, 3.
    private static double ShortTimeMean(ConductionGeometry geometry, double biot, double fourier)
    {
        var surfaceToVolume = geometry switch
        {
            ConductionGeometry.PlaneWall => 1,
            ConductionGeometry.LongCylinder => 2,
            _ => 3,
        };
        var root = 2 * Math.Sqrt(fourier / Math.PI);
        if (double.IsPositiveInfinity(biot)) return 1 - (surfaceToVolume * root);
        var b = biot * Math.Sqrt(fourier);
        // The closed form cancels for small b; there the surface has hardly moved and the loss is Bi·Fo less its first correction.
        var lost = b < 1e-3
            ? biot * fourier * (1 - (4 * b / (3 * Math.Sqrt(Math.PI))))
            : root - ((1 - ComplementaryError.Scaled(b)) / biot);
        return 1 - (surfaceToVolume * lost);
    }
}
