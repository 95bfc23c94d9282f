namespace ClimateGuard.Thermal;

/// <summary>How much of a working tolerance temperature takes, as ASME B89.6.2 counts it (from memory).</summary>
/// <remarks>There is no acceptance limit in it: the parties agree on one. Lengths in µm.</remarks>
public static class ThermalErrorIndex
{
    /// <summary>UNE: the nominal expansion times the share by which its coefficient is uncertain.</summary>
    /// <param name="nominalExpansionMicrometres">NE, in µm.</param>
    /// <param name="coefficientShare">The uncertainty of the coefficient as a share of it, in [0, 1].</param>
    /// <returns>UNE, in µm, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double UncertaintyOfNominalExpansion(double nominalExpansionMicrometres, double coefficientShare) =>
        Math.Abs(FormulaInput.Finite(nominalExpansionMicrometres, "µm")) * FormulaInput.InRange(coefficientShare, 0, 1, "");

    /// <summary>UNDE: the sum of the magnitudes of part and master, not their root sum of squares.</summary>
    /// <param name="partMicrometres">UNE of the part, in µm.</param>
    /// <param name="masterMicrometres">UNE of the master or scale, in µm.</param>
    /// <returns>UNDE, in µm, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double UncertaintyOfDifferentialExpansion(double partMicrometres, double masterMicrometres) =>
        Math.Abs(FormulaInput.Finite(partMicrometres, "µm")) + Math.Abs(FormulaInput.Finite(masterMicrometres, "µm"));

    /// <summary>TEI = 100·(|NDE| + UNDE + TVE)/WT where nothing is corrected.</summary>
    /// <param name="differentialMicrometres">NDE, in µm.</param>
    /// <param name="uncertaintyMicrometres">UNDE, in µm, 0 or more.</param>
    /// <param name="variationMicrometres">TVE, the range of the drift test over the cycle, in µm, 0 or more.</param>
    /// <param name="workingToleranceMicrometres">WT, in µm, above 0.</param>
    /// <returns>The index, in percent.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double UncorrectedPercent(
        double differentialMicrometres, double uncertaintyMicrometres, double variationMicrometres, double workingToleranceMicrometres) =>
        (100 * Math.Abs(FormulaInput.Finite(differentialMicrometres, "µm")) / FormulaInput.Positive(workingToleranceMicrometres, "µm"))
        + CorrectedPercent(uncertaintyMicrometres, variationMicrometres, workingToleranceMicrometres);

    /// <summary>TEI = 100·(UNDE + TVE)/WT where the differential expansion is corrected.</summary>
    /// <param name="uncertaintyMicrometres">UNDE, in µm, 0 or more.</param>
    /// <param name="variationMicrometres">TVE, the range of the drift test over the cycle, in µm, 0 or more.</param>
    /// <param name="workingToleranceMicrometres">WT, in µm, above 0.</param>
    /// <returns>The index, in percent.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double CorrectedPercent(double uncertaintyMicrometres, double variationMicrometres, double workingToleranceMicrometres) =>
        100 * (FormulaInput.NotNegative(uncertaintyMicrometres, "µm") + FormulaInput.NotNegative(variationMicrometres, "µm"))
        / FormulaInput.Positive(workingToleranceMicrometres, "µm");
}
