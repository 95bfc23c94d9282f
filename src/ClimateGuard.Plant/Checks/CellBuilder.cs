namespace ClimateGuard.Plant;

/// <summary>Makes a description from a checked draft: defaults filled in and noted, references resolved.</summary>
public static class CellBuilder
{
    /// <summary>The description; every key left out for which a value stands in is in <see cref="CellDescription.Defaults"/>.</summary>
    /// <param name="draft">What the file says; free of problems of form and of <see cref="PlantChecks"/>.</param>
    /// <param name="context">What it may refer to.</param>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    /// <exception cref="ArgumentException">A value that has no default is missing, which the checks would have reported.</exception>
    public static CellDescription Build(CellDraft draft, PlantContext context)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(context);
        var taken = new DefaultsTaken();
        var materials = MaterialBuilder.All(draft, context, taken);
        var id = Stated(draft.Cell, "/cell");
        var zones = Zones(draft, taken);
        return new CellDescription
        {
            Id = id,
            Name = taken.Or(draft.Name, "/name", id),
            TimeZone = taken.Or(draft.TimeZone, "/timeZone", "UTC"),
            Reference = new Celsius(taken.Or(draft.ReferenceC, "/referenceC", Celsius.Reference.Value)),
            Zones = zones,
            Sensors = Each(draft.Sensors, "/sensors", taken, (s, path) => SensorBuilder.Build(s, path, taken)),
            AirHandlers = Each(draft.AirHandlers, "/airHandlers", taken, (a, path) => Handler(a, path, taken)),
            Machines = Each(draft.Machines, "/machines", taken, (m, path) => MachineBuilder.Build(m, path, zones, taken)),
            Materials = [.. materials.Values],
            Parts = Each(draft.Parts, "/parts", taken, (p, path) => PartBuilder.Build(p, path, materials, taken)),
            Policies = PolicyBuilder.Build(draft.Policies, taken),
            Defaults = taken.All,
        };
    }

    /// <summary>A value that has no default.</summary>
    internal static T Stated<T>(T? value, string path)
        where T : class => value ?? throw new ArgumentException($"{path} is missing; check the draft before building from it");

    /// <summary>A value that has no default.</summary>
    internal static T Stated<T>(T? value, string path)
        where T : struct => value ?? throw new ArgumentException($"{path} is missing; check the draft before building from it");

    /// <summary>Each item of a list, built with its place in the file; a list left out is noted as empty.</summary>
    internal static IReadOnlyList<TOut> Each<TIn, TOut>(
        IReadOnlyList<TIn?>? items, string path, DefaultsTaken taken, Func<TIn, string, TOut> build)
        where TIn : class =>
        [.. taken.OrNone(items, path).Select((item, index) => build(Stated(item, $"{path}/{index}"), $"{path}/{index}"))];

    private static IReadOnlyList<Zone> Zones(CellDraft draft, DefaultsTaken taken) =>
        Each(draft.Zones, "/zones", taken, (zone, path) => new Zone
        {
            Id = Stated(zone.Id, $"{path}/id"),
            Setpoint = new Celsius(taken.Or(zone.SetpointC, $"{path}/setpointC", Celsius.Reference.Value)),
            Band = new Kelvins(taken.Or(zone.BandK, $"{path}/bandK", 1.0)),
            AirHandlers = Each(zone.AirHandlers, $"{path}/airHandlers", taken, (id, _) => id),
            SetBacks = Each(zone.SetBacks, $"{path}/setBacks", taken, SetBack),
        });

    private static SetBack SetBack(SetBackDraft setBack, string path) => new(
        WeekTime(setBack.From, $"{path}/from"), WeekTime(setBack.Until, $"{path}/until"), new Celsius(Stated(setBack.SetpointC, $"{path}/setpointC")));

    private static WeekTime WeekTime(string? text, string path) => ShiftDays.TryWeekTime(Stated(text, path), out var time)
        ? time
        : throw new ArgumentException(PlantMessages.WeekTimeUnreadable(text!));

    private static AirHandler Handler(AirHandlerDraft handler, string path, DefaultsTaken taken)
    {
        if (handler.Points is null)
        {
            taken.Note($"{path}/points", "{}");
        }

        return new AirHandler
        {
            Id = Stated(handler.Id, $"{path}/id"),
            Medium = taken.Or(handler.Medium, $"{path}/medium", CoolingMedium.ChilledWater),
            OutdoorAir = taken.Or(handler.OutdoorAir, $"{path}/outdoorAir", false),
            Points = (handler.Points ?? new Dictionary<string, string?>())
                .ToDictionary(p => p.Key, p => Stated(p.Value, $"{path}/points/{p.Key}"), StringComparer.Ordinal),
        };
    }
}
