namespace ClimateGuard.Thermal;

/// <summary>How well a budget can be decided: u/B and what it means (ratio rules of the trade, no source).</summary>
/// <param name="Ratio">Standard uncertainty over budget, 0 or more.</param>
/// <param name="Grade">What it means.</param>
public readonly record struct BudgetHealth(double Ratio, HealthGrade Grade)
{
    /// <summary>The health of an uncertainty against a budget.</summary>
    /// <param name="uMicrometres">Standard uncertainty, in µm, 0 or more.</param>
    /// <param name="budgetMicrometres">Budget, in µm, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static BudgetHealth Of(double uMicrometres, double budgetMicrometres)
    {
        var ratio = FormulaInput.NotNegative(uMicrometres, "µm") / FormulaInput.Positive(budgetMicrometres, "µm");
        return new(ratio, ratio <= 0.25 ? HealthGrade.Good : ratio <= 0.5 ? HealthGrade.MeasurePart : HealthGrade.InstrumentFirst);
    }
}

/// <summary>What a ratio of uncertainty to budget means.</summary>
public enum HealthGrade
{
    /// <summary>Up to a quarter: good.</summary>
    Good,

    /// <summary>Up to a half: measure the temperature of the part.</summary>
    MeasurePart,

    /// <summary>Above: a hold cannot be decided; an instrument comes first.</summary>
    InstrumentFirst,
}
