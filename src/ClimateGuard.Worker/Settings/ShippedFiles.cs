namespace ClimateGuard.Worker.Settings;

/// <summary>Finds the files of the folder <c>config</c>: first where the command was called, then beside the program.</summary>
internal static class ShippedFiles
{
    public static string? Find(string name)
    {
        string[] places = [Path.Combine("config", name), Path.Combine(AppContext.BaseDirectory, "config", name)];
        return places.FirstOrDefault(File.Exists);
    }

    /// <summary>The plant file to use: the one named, else the sample cell.</summary>
    public static string Plant(string? named) => named ?? Find("plant.yaml") ?? Path.Combine("config", "plant.yaml");
}
