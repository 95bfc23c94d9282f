namespace ClimateGuard.Evidence;

/// <summary>How often the measured sign is the predicted one: a board understands "14 of 15" before it understands R².</summary>
public static class SignAgreement
{
    /// <summary>Counts the agreeing signs and tests them against chance, one-sided binomial with p = ½.</summary>
    /// <param name="predicted">Finite; pairs with a zero on either side are left out, for they have no sign.</param>
    /// <param name="measured">As many, finite.</param>
    /// <param name="smallest">Pairs whose prediction is smaller than this say nothing and are left out; 0 or more.</param>
    /// <returns>The counts, P(as many or more by chance), and a 95 % Clopper–Pearson interval of the share.</returns>
    /// <exception cref="ArgumentException">The lists differ in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static SignAgreementResult Of(IReadOnlyList<double> predicted, IReadOnlyList<double> measured, double smallest = 0)
    {
        EvidenceInput.Sample(predicted, 0);
        EvidenceInput.Sample(measured, 0);
        EvidenceInput.SameLength(predicted.Count, measured.Count, nameof(predicted), nameof(measured));
        EvidenceInput.NotNegative(smallest);
        int agree = 0, used = 0;
        for (var i = 0; i < predicted.Count; i++)
        {
            if (predicted[i] == 0 || measured[i] == 0 || Math.Abs(predicted[i]) < smallest) continue;
            used++;
            if (Math.Sign(predicted[i]) == Math.Sign(measured[i])) agree++;
        }

        return OfCounts(agree, used);
    }

    /// <summary>The test of a count already made.</summary>
    /// <param name="agree">In [0, used].</param>
    /// <param name="used">0 or more; with none p is 1 and the interval is [0, 1].</param>
    /// <returns>The counts with p and interval.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count lies outside its range.</exception>
    public static SignAgreementResult OfCounts(int agree, int used)
    {
        EvidenceInput.Count(used, 0, int.MaxValue);
        EvidenceInput.Count(agree, 0, used);
        var interval = used == 0 ? new Interval(0, 1) : ProportionInterval.ClopperPearson(agree, used);
        return new SignAgreementResult(agree, used, Tail.BinomialAtLeast(agree, used, 0.5), interval);
    }
}

/// <summary>Agreement of signs; equality is by value.</summary>
/// <param name="Agree">Pairs whose signs agree.</param>
/// <param name="Used">Pairs that have two signs.</param>
/// <param name="PValue">P(as many or more by chance), in [0, 1].</param>
/// <param name="Share">95 % interval of the share that agrees.</param>
public sealed record SignAgreementResult(int Agree, int Used, double PValue, Interval Share);
