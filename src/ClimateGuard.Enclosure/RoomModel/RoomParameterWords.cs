namespace ClimateGuard.Enclosure;

/// <summary>What the parameters of a room are called.</summary>
public static class RoomParameterWords
{
    /// <summary>The name, without an article.</summary>
    public static string Name(this RoomParameter parameter) => parameter switch
    {
        RoomParameter.AirHeat => "heat that the air holds",
        RoomParameter.MassHeat => "heat that machines and slab hold",
        RoomParameter.AirToMass => "heat between air and machines",
        RoomParameter.ToHall => "heat to and from the hall",
        RoomParameter.FullFlow => "heat that the supply air carries",
        RoomParameter.NextZone => "heat from the next zone",
        RoomParameter.Door => "heat through an open door",
        RoomParameter.LoadShare => "share of the machines' power that heats the zone",
        _ => "heat that nobody measures",
    };

    /// <summary>Its unit in <see cref="RoomModel"/>.</summary>
    public static string Unit(this RoomParameter parameter) => parameter switch
    {
        RoomParameter.AirHeat or RoomParameter.MassHeat => "J/K",
        RoomParameter.LoadShare => "1",
        RoomParameter.Base => "W",
        _ => "W/K",
    };
}
