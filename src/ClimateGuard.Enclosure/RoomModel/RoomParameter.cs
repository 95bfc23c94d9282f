namespace ClimateGuard.Enclosure;

/// <summary>What describes a zone as a room of two nodes.</summary>
public enum RoomParameter
{
    /// <summary>Heat capacity of the air and what follows it at once, J/K.</summary>
    AirHeat,

    /// <summary>Heat capacity of machines, slab and walls, J/K.</summary>
    MassHeat,

    /// <summary>Conductance from air to mass, W/K.</summary>
    AirToMass,

    /// <summary>Conductance to the hall, walls and leaks together, W/K.</summary>
    ToHall,

    /// <summary>ṁ·cp of the supply air at full flow, W/K.</summary>
    FullFlow,

    /// <summary>Conductance to the next zone, W/K.</summary>
    NextZone,

    /// <summary>Conductance to the hall through open doors, W/K.</summary>
    Door,

    /// <summary>Share of the machines' electric power that becomes heat in the zone.</summary>
    LoadShare,

    /// <summary>Heat that nobody measures, such as lights, people, fan and ground, W; may be negative.</summary>
    Base,
}
