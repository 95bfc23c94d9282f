using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>An estimated number with its standard error; equality is by value.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="StandardError">In the unit of the value, 0 or more.</param>
/// <param name="DegreesOfFreedom">Of the t distribution that holds it, in [1, ∞]; infinity is the normal distribution.</param>
public readonly record struct Estimate(double Value, double StandardError, double DegreesOfFreedom)
{
    /// <summary>The interval of a confidence.</summary>
    /// <param name="confidence">In (0, 1), such as 0.95.</param>
    /// <returns>Value ± t·standard error.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The confidence lies outside (0, 1).</exception>
    public Interval Interval(double confidence = 0.95) =>
        Evidence.Interval.Around(Value, CoverageFactor.TwoSided(EvidenceInput.Share(confidence), DegreesOfFreedom) * StandardError);

    /// <summary>The test against a value, such as 0 (no relation) or 1 (the size predicted).</summary>
    /// <param name="hypothesis">The value that holds without effect, finite.</param>
    /// <param name="alternative">Greater: the truth is larger than the hypothesis.</param>
    /// <returns>p, in [0, 1]; 1 for an estimate that equals the hypothesis, 0 for another one without any error.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The hypothesis is not a finite number.</exception>
    public double PValue(double hypothesis = 0, Alternative alternative = Alternative.TwoSided) =>
        Tail.Student(T(EvidenceInput.Finite(hypothesis)), DegreesOfFreedom, alternative);

    /// <summary>(value − hypothesis)/standard error; infinite where there is no error.</summary>
    /// <param name="hypothesis">The value that holds without effect, finite.</param>
    /// <returns>t.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The hypothesis is not a finite number.</exception>
    public double T(double hypothesis = 0)
    {
        var distance = Value - EvidenceInput.Finite(hypothesis);
        return distance == 0 ? 0 : distance / StandardError;
    }
}
