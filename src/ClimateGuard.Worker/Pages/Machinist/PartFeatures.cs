using ClimateGuard.Plant;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>Finds what the plant file says of a feature.</summary>
public static class PartFeatures
{
    /// <summary>The feature of that part, or null when the plant file no longer knows it.</summary>
    public static Feature? Find(Cell cell, string part, string? feature)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return feature is null ? null : cell.FindPart(part)?.Features.FirstOrDefault(f => f.Id == feature);
    }
}
