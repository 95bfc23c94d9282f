namespace ClimateGuard.Plant;

/// <summary>What a plant file may refer to without stating it: the material library and the time zones.</summary>
/// <param name="Materials">The material library, as written.</param>
/// <param name="IsTimeZone">Whether a name is a known IANA time zone.</param>
/// <param name="TimeZoneNames">The known time zones; asked only to suggest one.</param>
public sealed record PlantContext(
    IReadOnlyList<MaterialDraft?> Materials, Func<string, bool> IsTimeZone, Func<IReadOnlyCollection<string>> TimeZoneNames);
