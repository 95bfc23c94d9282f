namespace ClimateGuard.Edges.Files;

/// <summary>Which temperatures a part or an inspection device may have, however they come in: others are a mix-up of units.</summary>
internal static class InspectionCelsius
{
    /// <summary>The range in words.</summary>
    public const string Range = "-50 to 150 °C";

    /// <summary>Whether a temperature is possible; one that is no number is not.</summary>
    public static bool IsPossible(double celsius) => celsius is >= -50 and <= 150;
}
