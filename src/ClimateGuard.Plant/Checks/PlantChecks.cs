namespace ClimateGuard.Plant;

/// <summary>Finds every contradiction in what a plant file says: unknown references, doubles, values that exclude each other.</summary>
/// <remarks>
/// Form (types, ranges, unknown keys) is the matter of the schema; here is meaning. A value that is null is passed over,
/// so the checks may run on a file whose form is wrong elsewhere. All problems are reported, not the first.
/// </remarks>
public static class PlantChecks
{
    /// <summary>Every contradiction, each with the place of the value to mend; empty when there is none.</summary>
    /// <param name="draft">What the file says.</param>
    /// <param name="context">What it may refer to.</param>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static IReadOnlyList<PlantProblem> Of(CellDraft draft, PlantContext context)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(context);
        var run = new CheckRun(draft, context);
        CellChecks.Run(run);
        SensorChecks.Run(run);
        MachineChecks.Run(run);
        MaterialChecks.Run(run, draft.Materials ?? [], "/materials");
        PartChecks.Run(run);
        PolicyChecks.Run(run);
        return run.Problems;
    }

    /// <summary>Every contradiction in a material library on its own; paths begin with <c>/materials</c>.</summary>
    /// <param name="materials">The library as written.</param>
    /// <exception cref="ArgumentNullException">The argument is null.</exception>
    public static IReadOnlyList<PlantProblem> OfLibrary(IReadOnlyList<MaterialDraft?> materials)
    {
        ArgumentNullException.ThrowIfNull(materials);
        var run = new CheckRun(new CellDraft(), new PlantContext(materials, _ => true, () => []));
        MaterialChecks.Run(run, materials, "/materials");
        return run.Problems;
    }

    /// <summary>What is stated but says nothing for its kind of feature; no reason to refuse a file, but not silent either.</summary>
    /// <param name="draft">What the file says.</param>
    /// <exception cref="ArgumentNullException">The argument is null.</exception>
    public static IReadOnlyList<PlantProblem> NotUsed(CellDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return [.. from part in CheckRun.Numbered(draft.Parts)
                   from feature in CheckRun.Numbered(part.Value.Features)
                   where feature.Value.Kind is not null
                   from key in PartChecks.KeysWithoutUse(feature.Value)
                   select new PlantProblem(
                       $"/parts/{part.Index}/features/{feature.Index}/{key}", PlantMessages.KeyNotUsed(key, feature.Value.Kind!.Value))];
    }
}
