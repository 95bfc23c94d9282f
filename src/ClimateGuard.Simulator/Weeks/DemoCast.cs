using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>Who plays which role in a demo story, found in whatever plant file is given.</summary>
internal sealed record DemoCast
{
    /// <summary>A machine and the part it makes.</summary>
    public sealed record Role(Machine Machine, Part Part);

    /// <summary>Every machine that has a part to make.</summary>
    public required IReadOnlyList<Role> All { get; init; }

    /// <summary>The machine whose coolant warms: the heaviest part with a hole pattern under flood.</summary>
    public required Role? WarmCoolant { get; init; }

    /// <summary>The machine that gets a cold blank: one whose blanks wait outside, with the part that expands least.</summary>
    public required Role? ColdBlank { get; init; }

    /// <summary>The contact of a door, or null.</summary>
    public required string? Door { get; init; }

    public static DemoCast From(Cell cell)
    {
        var possible = cell.Machines.SelectMany(m => Makes(cell, m).Select(p => new Role(m, p))).ToList();
        var patterned = possible.Where(r => Pattern(r.Part) is not null && r.Machine.CoolantSensor is not null).ToList();
        var warm = patterned.Where(r => r.Machine.CoolantMedium == CoolantMedium.Flood).MaxBy(r => Weight(r.Part));
        var cold = patterned
            .Where(r => r.Machine.Id != warm?.Machine.Id && r.Machine.StorageSensor is not null)
            .MinBy(r => r.Part.Material.AlphaMicrometresPerMetreKelvin);
        return new DemoCast
        {
            WarmCoolant = warm,
            ColdBlank = cold,
            All = Assign(possible, warm, cold),
            Door = cell.Sensors.FirstOrDefault(s => s is { Place: SensorPlace.Door, Quantity: SensorQuantity.Contact })?.Id,
        };
    }

    /// <summary>The first hole pattern of a part, or null.</summary>
    public static string? Pattern(Part part) => part.Features.OfType<PositionFeature>().FirstOrDefault()?.Id;

    // Those named for the machine first; a part that may run anywhere only when there is no other.
    private static List<Part> Makes(Cell cell, Machine machine)
    {
        var named = cell.Parts.Where(p => p.Machines.Contains(machine.Id)).ToList();
        return named.Count > 0 ? named : [.. cell.Parts.Where(p => p.Machines.Count == 0)];
    }

    private static double Weight(Part part) => part.MassKilograms ?? part.VolumeToAreaMillimetres;

    private static List<Role> Assign(List<Role> possible, Role? warm, Role? cold)
    {
        var assigned = new List<Role>();
        foreach (var machine in possible.GroupBy(r => r.Machine.Id))
        {
            var leading = machine.FirstOrDefault(r => r == warm || r == cold);
            var fresh = machine.FirstOrDefault(r => assigned.TrueForAll(a => a.Part.Number != r.Part.Number));
            assigned.Add(leading ?? fresh ?? machine.First());
        }

        return assigned;
    }
}
