using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>Logarithm, sine and cosine from additions, multiplications and divisions alone.</summary>
/// <remarks>
/// Those are exactly rounded everywhere, while the logarithm and sine of an operating system or of a fused multiply-add differ in
/// the last digit from machine to machine; draws made with these are the same everywhere. Limits: Log takes (0, 1e300], the turns
/// lie in [0, 1); both are right to 4e-16 absolute or relative, whichever is larger.
/// </remarks>
internal static class PortableMath
{
    private const double LogTwoHigh = 0.693147180369123816490;
    private const double LogTwoLow = 1.90821492927058770002e-10;
    private const int LogTerms = 11;

    /// <summary>ln x of one number.</summary>
    public static double Log(double x) => Log(Vector256.Create(x)).ToScalar();

    /// <summary>sin 2πu of one number.</summary>
    public static double SineOfTurns(double turns) => SineCosineOfTurns(Vector256.Create(turns)).Sine.ToScalar();

    /// <summary>ln x of each lane: x = m·2ᵉ with m in [√½, √2), ln m = 2·artanh((m − 1)/(m + 1)).</summary>
    public static Vector256<double> Log(Vector256<double> x)
    {
        var bits = x.AsUInt64();
        var exponent = Vector256.ConvertToDouble((bits >>> 52).AsInt64()) - Vector256.Create(1023.0);
        var mantissa = ((bits & Vector256.Create(0x000F_FFFF_FFFF_FFFFUL)) | Vector256.Create(0x3FF0_0000_0000_0000UL)).AsDouble();
        var high = Vector256.GreaterThan(mantissa, Vector256.Create(1.4142135623730951));
        mantissa = Vector256.ConditionalSelect(high, mantissa * 0.5, mantissa);
        exponent = Vector256.ConditionalSelect(high, exponent + Vector256<double>.One, exponent);
        var s = (mantissa - Vector256<double>.One) / (mantissa + Vector256<double>.One);
        var q = s * s;
        var sum = Vector256.Create(1.0 / ((2 * LogTerms) + 1));
        for (var n = LogTerms - 1; n >= 0; n--) sum = (sum * q) + Vector256.Create(1.0 / ((2 * n) + 1));
        return (exponent * LogTwoHigh) + ((exponent * LogTwoLow) + ((s + s) * sum));
    }

    /// <summary>sin 2πu and cos 2πu of each lane: the nearest quarter turn is taken off, the rest is a series within ±π/4.</summary>
    public static (Vector256<double> Sine, Vector256<double> Cosine) SineCosineOfTurns(Vector256<double> turns)
    {
        var quarter = Vector256.Floor((turns * 4) + Vector256.Create(0.5));
        var angle = (turns - (quarter * 0.25)) * (2 * Math.PI);
        var q = angle * angle;
        var sine = Vector256<double>.One;
        for (var n = 8; n >= 1; n--) sine = Vector256<double>.One - (q * sine / Vector256.Create((2.0 * n) * ((2 * n) + 1)));
        sine *= angle;
        var cosine = Vector256<double>.One;
        for (var n = 8; n >= 1; n--) cosine = Vector256<double>.One - (q * cosine / Vector256.Create((2.0 * n) * ((2 * n) - 1)));
        var odd = IsOneOf(quarter, 1, 3);
        var rotatedSine = Vector256.ConditionalSelect(odd, cosine, sine);
        var rotatedCosine = Vector256.ConditionalSelect(odd, sine, cosine);
        return (
            Vector256.ConditionalSelect(IsOneOf(quarter, 2, 3), -rotatedSine, rotatedSine),
            Vector256.ConditionalSelect(IsOneOf(quarter, 1, 2), -rotatedCosine, rotatedCosine));
    }

    private static Vector256<double> IsOneOf(Vector256<double> quarter, double first, double second) =>
        Vector256.Equals(quarter, Vector256.Create(first)) | Vector256.Equals(quarter, Vector256.Create(second));
}
