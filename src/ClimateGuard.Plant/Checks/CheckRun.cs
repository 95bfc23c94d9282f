namespace ClimateGuard.Plant;

/// <summary>One run of the checks: what the file defines, and the problems found so far.</summary>
internal sealed class CheckRun
{
    private readonly List<PlantProblem> problems = [];

    public CheckRun(CellDraft draft, PlantContext context)
    {
        Draft = draft;
        Context = context;
        Zones = draft.Zones is null ? null : Ids(draft.Zones, z => z.Id);
        Sensors = draft.Sensors is null ? null : Ids(draft.Sensors, s => s.Id);
        AirHandlers = Ids(draft.AirHandlers, a => a.Id);
        Machines = Ids(draft.Machines, m => m.Id);
        Materials = MaterialBook.Merge(context.Materials, draft.Materials);
    }

    public CellDraft Draft { get; }

    public PlantContext Context { get; }

    /// <summary>The zones by id, or null when the section is missing: its absence is one problem, not one for each reference.</summary>
    public Dictionary<string, ZoneDraft>? Zones { get; }

    /// <summary>The sensors by id, or null when the section is missing.</summary>
    public Dictionary<string, SensorDraft>? Sensors { get; }

    public Dictionary<string, AirHandlerDraft> AirHandlers { get; }

    public Dictionary<string, MachineDraft> Machines { get; }

    public IReadOnlyDictionary<string, MaterialDraft> Materials { get; }

    public IReadOnlyList<PlantProblem> Problems => problems;

    public void Add(string path, string message) => problems.Add(new PlantProblem(path, message));

    /// <summary>The items that could be read, with the place each has in the file.</summary>
    public static IEnumerable<(int Index, T Value)> Numbered<T>(IReadOnlyList<T?>? items)
        where T : class =>
        (items ?? []).Select((item, index) => (index, item)).Where(pair => pair.item is not null).Select(pair => (pair.index, pair.item!));

    /// <summary>Reports an id that an earlier item of the same list already has.</summary>
    public void Unique<T>(IReadOnlyList<T?>? items, Func<T, string?> idOf, string what, string list, string key)
        where T : class
    {
        var first = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (index, item) in Numbered(items))
        {
            if (idOf(item) is { } id && !first.TryAdd(id, index))
            {
                Add($"{list}/{index}/{key}", PlantMessages.DuplicateId(what, id, first[id]));
            }
        }
    }

    /// <summary>Reports an id that nothing in the file defines.</summary>
    public bool Known<T>(string? id, IReadOnlyDictionary<string, T>? known, string what, string path)
    {
        if (id is null || known is null)
        {
            return false;
        }

        if (known.ContainsKey(id))
        {
            return true;
        }

        Add(path, PlantMessages.UnknownReference(what, id, [.. known.Keys]));
        return false;
    }

    /// <summary>Reports a sensor that is unknown or does not measure a temperature.</summary>
    public SensorDraft? TemperatureSensor(string? id, string use, string path)
    {
        if (!Known(id, Sensors, "sensor", path))
        {
            return null;
        }

        var sensor = Sensors![id!];
        var quantity = SensorDefaults.QuantityOf(sensor);
        if (quantity != SensorQuantity.Temperature)
        {
            Add(path, PlantMessages.NotATemperature(use, id!, quantity));
            return null;
        }

        return sensor;
    }

    private static Dictionary<string, T> Ids<T>(IReadOnlyList<T?>? items, Func<T, string?> idOf)
        where T : class
    {
        var ids = new Dictionary<string, T>(StringComparer.Ordinal);
        foreach (var (_, item) in Numbered(items))
        {
            if (idOf(item) is { } id)
            {
                ids.TryAdd(id, item);
            }
        }

        return ids;
    }
}
