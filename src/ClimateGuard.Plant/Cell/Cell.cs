using System.Collections.Frozen;

namespace ClimateGuard.Plant;

/// <summary>The enclosure with everything in it that matters to temperature: zones, sensors, air handlers, machines, parts.</summary>
/// <remarks>
/// One immutable description, read from a plant file and checked before anything uses it; equality is by reference.
/// A changed plant file makes a new <see cref="Cell"/>; nothing in a cell ever changes. Safe across threads.
/// </remarks>
public sealed class Cell
{
    private readonly FrozenDictionary<string, Machine> machinesById;
    private readonly FrozenDictionary<string, Part> partsByNumber;
    private readonly FrozenDictionary<string, int> sensorIndexById;

    /// <summary>Puts a checked description together.</summary>
    /// <param name="description">The parts of the cell; ids are unique and references resolve (see the folder Checks).</param>
    public Cell(CellDescription description)
    {
        ArgumentNullException.ThrowIfNull(description);
        Description = description;
        machinesById = description.Machines.ToFrozenDictionary(m => m.Id, StringComparer.Ordinal);
        partsByNumber = description.Parts.ToFrozenDictionary(p => p.Number, StringComparer.Ordinal);
        sensorIndexById = description.Sensors.Select((s, i) => (s.Id, i)).ToFrozenDictionary(p => p.Id, p => p.i, StringComparer.Ordinal);
    }

    /// <summary>The description as read.</summary>
    public CellDescription Description { get; }

    /// <summary>The id used in topics.</summary>
    public string Id => Description.Id;

    /// <summary>The sensors, in the order of the plant file; a <see cref="Reading"/> names one by its index here.</summary>
    public IReadOnlyList<Sensor> Sensors => Description.Sensors;

    /// <summary>The machines, in the order of the plant file.</summary>
    public IReadOnlyList<Machine> Machines => Description.Machines;

    /// <summary>The parts, in the order of the plant file.</summary>
    public IReadOnlyList<Part> Parts => Description.Parts;

    /// <summary>The zones, in the order of the plant file.</summary>
    public IReadOnlyList<Zone> Zones => Description.Zones;

    /// <summary>The machine of that id, or null.</summary>
    public Machine? FindMachine(string id) => machinesById.GetValueOrDefault(id);

    /// <summary>The part of that number, or null.</summary>
    public Part? FindPart(string number) => partsByNumber.GetValueOrDefault(number);

    /// <summary>The index in <see cref="Sensors"/> of the sensor of that id, or -1.</summary>
    public int IndexOfSensor(string id) => sensorIndexById.TryGetValue(id, out var index) ? index : -1;
}
