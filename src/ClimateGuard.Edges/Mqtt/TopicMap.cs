using System.Collections.Frozen;
using ClimateGuard.Plant;
using MQTTnet;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Which topic belongs to which sensor, and what to subscribe to so that all of them arrive.</summary>
/// <remarks>
/// A filter is a pattern such as <c>cg/{cell}/reading/{sensor}</c>: <c>{sensor}</c> stands for the id of a sensor, slashes included, and a
/// last level <c>#</c> means the same. A filter with other wildcards is subscribed to, and its sensors need a <c>topic</c> of their own.
/// A lookup costs one hash of the topic and no allocation. Immutable.
/// </remarks>
public sealed class TopicMap
{
    private readonly FrozenDictionary<string, int> sensorByTopic;

    /// <summary>Maps the topics of a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="readingFilters">Patterns; empty for the default.</param>
    public TopicMap(Cell cell, IReadOnlyList<string> readingFilters)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(readingFilters);
        IReadOnlyList<string> given = readingFilters.Count > 0 ? readingFilters : [Topics.DefaultReadingFilter];
        string[] patterns = [.. given.Select(pattern => Complete(pattern, cell.Id))];
        var map = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var index = 0; index < cell.Sensors.Count; index++)
        {
            var sensor = cell.Sensors[index];
            if (sensor.Topic is { Length: > 0 } own)
            {
                map[own] = index;
                continue;
            }

            foreach (var pattern in patterns.Where(pattern => pattern.Contains("{sensor}", StringComparison.Ordinal)))
            {
                map.TryAdd(pattern.Replace("{sensor}", sensor.Id, StringComparison.Ordinal), index);
            }
        }

        sensorByTopic = map.ToFrozenDictionary(StringComparer.Ordinal);
        Subscriptions = SubscriptionsFor(patterns, cell, map.Keys);
    }

    /// <summary>What to subscribe to for readings, none of it twice.</summary>
    public IReadOnlyList<string> Subscriptions { get; }

    /// <summary>All topics that belong to a sensor.</summary>
    public IReadOnlyCollection<string> Known => sensorByTopic.Keys;

    /// <summary>The index of the sensor of that topic, or -1.</summary>
    public int IndexOf(string topic) => sensorByTopic.TryGetValue(topic, out var index) ? index : -1;

    private static string Complete(string pattern, string cell)
    {
        var filled = pattern.Replace("{cell}", cell, StringComparison.Ordinal);
        return filled.EndsWith("/#", StringComparison.Ordinal) && !filled.Contains("{sensor}", StringComparison.Ordinal)
            && !filled.Contains('+', StringComparison.Ordinal)
            ? filled[..^1] + "{sensor}"
            : filled;
    }

    private static List<string> SubscriptionsFor(string[] patterns, Cell cell, IEnumerable<string> topics)
    {
        var filters = new List<string>();
        int[] levels = [.. cell.Sensors.Where(sensor => sensor.Topic is null or "")
            .Select(sensor => sensor.Id.Count(letter => letter == '/') + 1).Distinct().Order()];
        foreach (var pattern in patterns)
        {
            if (pattern.EndsWith("/{sensor}", StringComparison.Ordinal))
            {
                Add(pattern.Replace("{sensor}", "#", StringComparison.Ordinal));
            }
            else if (pattern.Contains("{sensor}", StringComparison.Ordinal))
            {
                // In the middle only + may stand: one filter for each number of levels that an id has.
                Array.ForEach(levels, count => Add(pattern.Replace("{sensor}", string.Join('/', Enumerable.Repeat('+', count)), StringComparison.Ordinal)));
            }
            else
            {
                Add(pattern);
            }
        }

        // A sensor with a topic of its own that no filter covers gets its own subscription. Covered ones do not:
        // overlapping subscriptions may deliver a message twice.
        foreach (var topic in topics.Order(StringComparer.Ordinal))
        {
            Add(topic);
        }

        return filters;

        void Add(string filter)
        {
            if (!filters.Any(known => MqttTopicFilterComparer.Compare(filter, known) == MqttTopicFilterCompareResult.IsMatch))
            {
                filters.Add(filter);
            }
        }
    }
}
