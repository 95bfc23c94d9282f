namespace ClimateGuard.Plant;

/// <summary>Finds the names a person probably meant.</summary>
public static class NearestNames
{
    /// <summary>
    /// The known names nearest to a name by edit distance, nearest first, at most three, none farther than half its length or
    /// twice the nearest.
    /// </summary>
    public static IReadOnlyList<string> To(string name, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(known);
        var limit = Math.Max(2, name.Length / 2);
        var near = known
            .Select(candidate => (candidate, distance: Distance(name.ToUpperInvariant(), candidate.ToUpperInvariant())))
            .Where(pair => pair.distance <= limit)
            .ToList();
        var nearest = near.Count == 0 ? 0 : near.Min(pair => pair.distance);
        return [.. near
            .Where(pair => pair.distance <= 2 * nearest)
            .OrderBy(pair => pair.distance).ThenBy(pair => pair.candidate, StringComparer.Ordinal)
            .Take(3)
            .Select(pair => pair.candidate)];
    }

    /// <summary>A half sentence that offers the nearest names, or all names when none is near and there are few.</summary>
    public static string Hint(string name, IReadOnlyCollection<string> known)
    {
        ArgumentNullException.ThrowIfNull(known);
        var near = To(name, known);
        if (near.Count > 0)
        {
            return $"did you mean {string.Join(" or ", near)}?";
        }

        return known.Count is > 0 and <= 16 ? $"known: {string.Join(", ", known)}" : $"{known.Count} are known, none similar";
    }

    private static int Distance(string left, string right)
    {
        var previous = new int[right.Length + 1];
        var current = new int[right.Length + 1];
        for (var j = 0; j <= right.Length; j++)
        {
            previous[j] = j;
        }

        for (var i = 1; i <= left.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= right.Length; j++)
            {
                var cost = left[i - 1] == right[j - 1] ? 0 : 1;
                current[j] = Math.Min(Math.Min(current[j - 1] + 1, previous[j] + 1), previous[j - 1] + cost);
            }

            (previous, current) = (current, previous);
        }

        return previous[right.Length];
    }
}
