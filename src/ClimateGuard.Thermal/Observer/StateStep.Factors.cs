namespace ClimateGuard.Thermal;

internal sealed partial class StateStep
{
    private const double MinuteSeconds = 60;

    // What depends on the length of a step alone, in a row of numbers; machines are followed by the minute, so those of a minute are worked out once.
    private const int ScaleKeep = 0;
    private const int ScaleArrive = 1;
    private const int FixtureKeep = 2;
    private const int FixtureArrive = 3;
    private const int OffsetKeep = 4;
    private const int OffsetFades = 5;
    private const int OffsetOwn = 6;
    private const int OffsetMixed = 7;
    private const int OffsetScale = 8;
    private const int ScaleNoise = 9;
    private const int FirstOfModes = 10;
    private const int OfMode = 4;
    private const int ModeKeep = 0;
    private const int ModeArrive = 1;
    private const int ModeOnce = 2;
    private const int ModeTwice = 3;

    private readonly double[] ofMinute;

    private int FactorCount => FirstOfModes + (OfMode * modes.Length);

    private ReadOnlySpan<double> FactorsOf(double seconds, Span<double> room) => seconds == MinuteSeconds ? ofMinute : WorkedOut(seconds, room);

    private Span<double> WorkedOut(double seconds, Span<double> factors)
    {
        (factors[ScaleKeep], factors[ScaleArrive]) = KeepAndArrive(seconds / scaleSeconds);
        (factors[FixtureKeep], factors[FixtureArrive]) = KeepAndArrive(seconds / fixtureSeconds);
        var (x, y) = (seconds / scaleSeconds, seconds / scaleOffsetSeconds);
        factors[OffsetKeep] = Math.Exp(-y);
        factors[OffsetFades] = (x * CascadeResponse.Of(y, x)) - Fading(x);
        var (a, b) = (1 / scaleSeconds, 1 / scaleOffsetSeconds);
        factors[OffsetOwn] = Fading(2 * b * seconds) / (2 * b);
        factors[OffsetMixed] = Fading((a + b) * seconds) / (a + b);
        factors[OffsetScale] = Fading(2 * a * seconds) / (2 * a);
        factors[ScaleNoise] = Fading(2 * seconds / scaleSeconds);
        for (var mode = 0; mode < modes.Length; mode++)
        {
            var of = factors.Slice(FirstOfModes + (OfMode * mode), OfMode);
            var ratio = seconds / modes[mode].TimeConstantSeconds;
            (of[ModeKeep], of[ModeArrive]) = KeepAndArrive(ratio);
            (of[ModeOnce], of[ModeTwice]) = Arrived(ratio);
        }

        return factors;
    }

    private static (double Keep, double Arrive) KeepAndArrive(double ratio) => (Math.Exp(-ratio), Fading(ratio));
}
