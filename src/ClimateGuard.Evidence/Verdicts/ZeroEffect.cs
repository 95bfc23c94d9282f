namespace ClimateGuard.Evidence;

/// <summary>Whether a feature would have been in tolerance at zero thermal effect.</summary>
public enum ZeroEffectAnswer
{
    /// <summary>It would.</summary>
    Yes,

    /// <summary>It would not.</summary>
    No,

    /// <summary>The uncertainty reaches over the limit.</summary>
    Uncertain,

    /// <summary>There is no one deviation or no prediction.</summary>
    NotKnown,
}

/// <summary>What is left of a deviation without its thermal part; equality is by value.</summary>
/// <param name="RestMicrometres">The deviation less the predicted effect, in µm; NaN when it is not known.</param>
/// <param name="UMicrometres">Its standard uncertainty, in µm.</param>
/// <param name="InTolerance">Whether it would have been in tolerance.</param>
public sealed record ZeroEffect(double RestMicrometres, double UMicrometres, ZeroEffectAnswer InTolerance)
{
    // 95 % one-sided, as the acceptance limits of JCGM 106 with that conformance probability.
    private const double OneSided = 1.645;

    /// <summary>Nothing can be said.</summary>
    public static ZeroEffect NotKnown { get; } = new(double.NaN, double.NaN, ZeroEffectAnswer.NotKnown);

    /// <summary>Holds the rest against the tolerance.</summary>
    /// <param name="restMicrometres">The rest, in µm.</param>
    /// <param name="uMicrometres">Its standard uncertainty, in µm, 0 or more.</param>
    /// <param name="toleranceMicrometres">The tolerance as in the plant file, in µm, above 0.</param>
    public static ZeroEffect Of(double restMicrometres, double uMicrometres, double toleranceMicrometres)
    {
        var rest = Math.Abs(EvidenceInput.Finite(restMicrometres));
        var slack = OneSided * EvidenceInput.NotNegative(uMicrometres);
        var tolerance = EvidenceInput.Positive(toleranceMicrometres);
        return new ZeroEffect(restMicrometres, uMicrometres,
            rest + slack <= tolerance ? ZeroEffectAnswer.Yes : rest - slack > tolerance ? ZeroEffectAnswer.No : ZeroEffectAnswer.Uncertain);
    }

    /// <summary>The answer as a word.</summary>
    public string Word => InTolerance switch
    {
        ZeroEffectAnswer.Yes => "yes",
        ZeroEffectAnswer.No => "no",
        ZeroEffectAnswer.Uncertain => "uncertain",
        _ => "not known",
    };
}
