namespace ClimateGuard.Evidence;

/// <summary>Counts of exposed and not exposed, out of tolerance and not; equality is by value.</summary>
/// <param name="ExposedBad">a: exposed and out of tolerance, 0 or more.</param>
/// <param name="ExposedGood">b: exposed and in tolerance, 0 or more.</param>
/// <param name="OtherBad">c: not exposed and out of tolerance, 0 or more.</param>
/// <param name="OtherGood">d: not exposed and in tolerance, 0 or more.</param>
public sealed record TwoByTwo(int ExposedBad, int ExposedGood, int OtherBad, int OtherGood)
{
    private const int Most = 1_000_000;

    /// <summary>All exposed.</summary>
    public int Exposed => ExposedBad + ExposedGood;

    /// <summary>All not exposed.</summary>
    public int Other => OtherBad + OtherGood;

    /// <summary>All out of tolerance.</summary>
    public int Bad => ExposedBad + OtherBad;

    /// <summary>All.</summary>
    public int Total => Exposed + Other;

    /// <summary>Counts pairs of exposed and bad.</summary>
    /// <param name="exposed">Of each part.</param>
    /// <param name="bad">Of each part, as many.</param>
    /// <returns>The table.</returns>
    /// <exception cref="ArgumentException">The lists differ in length.</exception>
    public static TwoByTwo Of(IReadOnlyList<bool> exposed, IReadOnlyList<bool> bad)
    {
        ArgumentNullException.ThrowIfNull(exposed);
        ArgumentNullException.ThrowIfNull(bad);
        EvidenceInput.SameLength(exposed.Count, bad.Count, nameof(exposed), nameof(bad));
        int Cell(bool x, bool y) => exposed.Zip(bad).Count(pair => pair.First == x && pair.Second == y);
        return new TwoByTwo(Cell(true, true), Cell(true, false), Cell(false, true), Cell(false, false));
    }

    internal TwoByTwo Checked()
    {
        EvidenceInput.Count(ExposedBad, 0, Most);
        EvidenceInput.Count(ExposedGood, 0, Most);
        EvidenceInput.Count(OtherBad, 0, Most);
        EvidenceInput.Count(OtherGood, 0, Most);
        return this;
    }
}
