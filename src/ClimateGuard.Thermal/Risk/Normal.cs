namespace ClimateGuard.Thermal;

/// <summary>Standard normal draws from a seeded source (Box and Muller 1958).</summary>
internal static class Normal
{
    public static double Next(Random random)
    {
        var u = 1.0 - random.NextDouble();
        return Math.Sqrt(-2 * Math.Log(u)) * Math.Cos(2 * Math.PI * random.NextDouble());
    }
}
