namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>The order of the column: who needs a person first.</summary>
public static class FloorOrder
{
    /// <summary>Ordered by need; machines of one level keep the order of the plant file, so that the column does not dance with the numbers.</summary>
    public static IReadOnlyList<T> ByNeed<T>(IEnumerable<T> machines, Func<T, Standing> standing) =>
        [.. machines.OrderBy(machine => LevelLook.Rank(standing(machine).Level))];
}
