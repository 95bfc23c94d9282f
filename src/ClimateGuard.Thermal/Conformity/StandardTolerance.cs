namespace ClimateGuard.Thermal;

/// <summary>The standard tolerances IT5 to IT9 for sizes from 30 to 1250 mm (ISO 286-1, table 1; above 500 mm from memory).</summary>
public static class StandardTolerance
{
    private const int LowestGrade = 5;
    private const int HighestGrade = 9;

    private static readonly double[] UpTo = [50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250];

    private static readonly int[][] Micrometres =
    [
        [11, 16, 25, 39, 62],
        [13, 19, 30, 46, 74],
        [15, 22, 35, 54, 87],
        [18, 25, 40, 63, 100],
        [20, 29, 46, 72, 115],
        [23, 32, 52, 81, 130],
        [25, 36, 57, 89, 140],
        [27, 40, 63, 97, 155],
        [32, 44, 70, 110, 175],
        [36, 50, 80, 125, 200],
        [40, 56, 90, 140, 230],
        [47, 66, 105, 165, 260],
    ];

    /// <summary>The width of the tolerance of a grade.</summary>
    /// <param name="sizeMillimetres">Nominal size, in mm, above 30 and up to 1250; a size on a step belongs to the step below it.</param>
    /// <param name="grade">The number of the grade, 5 to 9.</param>
    /// <returns>The tolerance, in µm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Size or grade lies outside the table.</exception>
    public static int MicrometresOf(double sizeMillimetres, int grade)
    {
        if (sizeMillimetres is not (> 30 and <= 1250))
        {
            throw new ArgumentOutOfRangeException(
                nameof(sizeMillimetres), sizeMillimetres, "sizeMillimetres must lie above 30 and up to 1250 mm: the table holds no others.");
        }

        FormulaInput.InRange(grade, LowestGrade, HighestGrade, "");
        var row = 0;
        while (UpTo[row] < sizeMillimetres) row++;
        return Micrometres[row][grade - LowestGrade];
    }
}
