namespace ClimateGuard.Plant;

/// <summary>Checks of the parts and their features.</summary>
internal static class PartChecks
{
    public static void Run(CheckRun run)
    {
        run.Unique(run.Draft.Parts, p => p.Number, "part number", "/parts", "number");
        foreach (var (index, part) in CheckRun.Numbered(run.Draft.Parts))
        {
            var path = $"/parts/{index}";
            run.Known(part.Material, run.Materials, "material", $"{path}/material");
            foreach (var (place, machine) in CheckRun.Numbered(part.Machines))
            {
                run.Known(machine, run.Machines, "machine", $"{path}/machines/{place}");
            }

            run.Unique(part.Features, f => f.Id, "feature", $"{path}/features", "id");
            foreach (var (place, feature) in CheckRun.Numbered(part.Features))
            {
                Budget(run, feature, $"{path}/features/{place}");
                Geometry(run, feature, $"{path}/features/{place}");
                Expansion(run, feature.FixturePin?.Alpha, $"{path}/features/{place}/fixturePin/alpha");
                Expansion(run, feature.Bending?.Alpha, $"{path}/features/{place}/bending/alpha");
                Expansion(run, feature.Bolted?.SubplateAlpha, $"{path}/features/{place}/bolted/subplateAlpha");
            }
        }
    }

    /// <summary>The stated keys that say nothing for the kind of a feature.</summary>
    public static IEnumerable<string> KeysWithoutUse(FeatureDraft feature)
    {
        var isPosition = feature.Kind is FeatureKind.Position;
        var hasNominal = feature.Kind is FeatureKind.Size or FeatureKind.Depth or FeatureKind.Distance;
        var hasAxis = feature.Kind is FeatureKind.Depth or FeatureKind.Distance;
        (string Key, bool Idle)[] keys =
        [
            ("axis", feature.Axis is not null && !hasAxis),
            ("bending", feature.Bending is { Body: not null and not BendingBody.Column } && !hasAxis),
            ("boltCircle", feature.BoltCircle is not null && !isPosition),
            ("bolted", feature.Bolted is not null && !hasAxis),
            ("datum", feature.Datum is not null && !isPosition),
            ("fixturePin", feature.FixturePin is not null && !hasAxis && !isPosition),
            ("nominalMm", feature.NominalMm is not null && !hasNominal),
            ("points", feature.Points is not null && !isPosition),
        ];
        return keys.Where(pair => pair.Idle).Select(pair => pair.Key);
    }

    private static void Expansion(CheckRun run, double? alpha, string path)
    {
        if (alpha is { } value && MaterialChecks.LooksLikePerKelvin(value))
        {
            run.Add(path, PlantMessages.AlphaPerKelvin(value));
        }
    }

    private static void Budget(CheckRun run, FeatureDraft feature, string path)
    {
        if (feature is { BudgetUm: not null, BudgetShare: not null })
        {
            run.Add($"{path}/budgetShare", PlantMessages.BudgetTwice());
        }

        if (feature.BudgetUm is { } budget && feature.ToleranceMm is { } tolerance && budget > tolerance * 1000 * (1 + 1e-9))
        {
            run.Add($"{path}/budgetUm", PlantMessages.BudgetAboveTolerance(budget, tolerance));
        }
    }

    private static void Geometry(CheckRun run, FeatureDraft feature, string path)
    {
        switch (feature.Kind)
        {
            case FeatureKind.Position when feature.BoltCircle is null && feature.Points is null:
                run.Add(path, PlantMessages.HolesMissing());
                break;
            case FeatureKind.Position when feature.BoltCircle is not null && feature.Points is not null:
                run.Add($"{path}/points", PlantMessages.HolesTwice());
                break;
            case FeatureKind.Size or FeatureKind.Depth or FeatureKind.Distance when feature.NominalMm is null:
                run.Add(path, PlantMessages.NominalMissing(feature.Kind.Value));
                break;
        }
    }
}
