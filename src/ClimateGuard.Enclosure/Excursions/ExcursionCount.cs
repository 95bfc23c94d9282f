namespace ClimateGuard.Enclosure;

/// <summary>An excursion as far as it has gone.</summary>
/// <param name="Begin">When the air left the band.</param>
/// <param name="End">The end of the last minute outside it.</param>
/// <param name="PeakKelvins">The farthest from the set point, with its sign.</param>
/// <param name="DegreeMinutes">Kelvins beyond the band times minutes.</param>
public sealed record ExcursionSpan(DateTimeOffset Begin, DateTimeOffset End, double PeakKelvins, double DegreeMinutes);

/// <summary>Follows the air of one zone minute by minute and tells when it left its band and when it is back.</summary>
/// <remarks>
/// It is back after 10 known minutes within the band, so that noise at its edge makes one excursion and not many (common practice, no source). A
/// minute that is not known counts neither as back nor as outside. Not safe across threads.
/// </remarks>
/// <param name="bandKelvins">Half the width of the band, above 0.</param>
public sealed class ExcursionCount(double bandKelvins)
{
    private const int Settled = 10;
    private int back;

    /// <summary>The excursion that lasts, or null.</summary>
    public ExcursionSpan? Open { get; private set; }

    /// <summary>Goes on with an excursion that began earlier.</summary>
    /// <param name="begun">The excursion.</param>
    public void GoOn(ExcursionSpan begun) => (Open, back) = (begun, 0);

    /// <summary>Takes the next minute.</summary>
    /// <param name="minute">Its begin.</param>
    /// <param name="errorKelvins">Air minus set point, in K; NaN when not known.</param>
    /// <returns>The excursion that is over, or null.</returns>
    public ExcursionSpan? Take(DateTimeOffset minute, double errorKelvins)
    {
        if (double.IsNaN(errorKelvins)) return null;
        var size = Math.Abs(errorKelvins);
        if (Open is null && size <= bandKelvins) return null;
        var open = Open ?? new ExcursionSpan(minute, minute, 0, 0);
        Open = open with
        {
            PeakKelvins = size > Math.Abs(open.PeakKelvins) ? errorKelvins : open.PeakKelvins,
            DegreeMinutes = open.DegreeMinutes + Math.Max(0, size - bandKelvins),
            End = size > bandKelvins ? minute.AddMinutes(1) : open.End,
        };
        back = size > bandKelvins ? 0 : back + 1;
        if (back < Settled) return null;
        var over = Open;
        (Open, back) = (null, 0);
        return over;
    }
}
