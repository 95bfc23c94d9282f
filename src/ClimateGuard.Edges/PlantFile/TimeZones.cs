namespace ClimateGuard.Edges.PlantFile;

/// <summary>The IANA time zones this computer knows.</summary>
internal static class TimeZones
{
    public static bool IsKnown(string name)
    {
        try
        {
            TimeZoneInfo.FindSystemTimeZoneById(name);
            return true;
        }
        catch (Exception unknown) when (unknown is TimeZoneNotFoundException or InvalidTimeZoneException
            or System.Security.SecurityException or UnauthorizedAccessException or IOException)
        {
            return false;
        }
    }

    public static IReadOnlyCollection<string> Names() => [.. TimeZoneInfo.GetSystemTimeZones().Select(z => z.Id)];
}
