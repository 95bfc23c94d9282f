using ClimateGuard.Edges.Files;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The saved mappings of inspection devices, a file each in the folder of the store.</summary>
internal sealed class DeviceShelf(WorkerPlan plan)
{
    private string Folder => Path.Combine(plan.StorageFolder, "devices");

    public IReadOnlyList<string> Names() => Directory.Exists(Folder)
        ? [.. Directory.EnumerateFiles(Folder, "*.json").Select(file => Path.GetFileNameWithoutExtension(file)).Order(StringComparer.Ordinal)]
        : [];

    /// <summary>The mapping of a device; null when none is saved.</summary>
    public (DeviceMapping? Mapping, IReadOnlyList<string> Problems) Read(string name) =>
        DeviceMappingReader.IsDeviceId(name) && File.Exists(PathOf(name)) ? DeviceMappingReader.Read(File.ReadAllBytes(PathOf(name))) : (null, []);

    /// <summary>Saves a mapping, in place of the one before.</summary>
    /// <returns>What is wrong with it; then nothing was saved.</returns>
    public IReadOnlyList<string> Save(string name, ReadOnlySpan<byte> json)
    {
        var (mapping, problems) = DeviceMappingReader.Read(json);
        if (mapping is null)
        {
            return problems;
        }

        if (mapping.Device != name)
        {
            return [$"device is \"{mapping.Device}\" in the mapping and \"{(DeviceMappingReader.IsDeviceId(name) ? name : "not an id")}\" in the address; they must be the same"];
        }

        Directory.CreateDirectory(Folder);
        File.WriteAllBytes(PathOf(name) + ".new", json);
        File.Move(PathOf(name) + ".new", PathOf(name), overwrite: true);
        return [];
    }

    private string PathOf(string name) => Path.Combine(Folder, name + ".json");
}
