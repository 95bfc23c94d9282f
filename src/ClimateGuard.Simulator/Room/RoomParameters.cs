namespace ClimateGuard.Simulator;

/// <summary>Heat capacities and conductances of one zone of the <see cref="VirtualRoom"/>. Invented, in the order of a cell of 170 m² a zone.</summary>
internal sealed record RoomParameters
{
    public required double LowAirJoulesPerKelvin { get; init; }

    public required double HighAirJoulesPerKelvin { get; init; }

    public required double MassJoulesPerKelvin { get; init; }

    public required double SlabJoulesPerKelvin { get; init; }

    public required double LowToMass { get; init; }

    public required double LowToSlab { get; init; }

    public required double SlabToGround { get; init; }

    public required double LowToHall { get; init; }

    public required double HighToHall { get; init; }

    public required double MixingFanOn { get; init; }

    public required double MixingFanOff { get; init; }

    public static RoomParameters Of(Chance chance, double scale) => new()
    {
        LowAirJoulesPerKelvin = chance.Perturbed(2.5e6, scale),
        HighAirJoulesPerKelvin = chance.Perturbed(1.1e6, scale),
        MassJoulesPerKelvin = chance.Perturbed(55e6, scale),
        SlabJoulesPerKelvin = chance.Perturbed(40e6, scale),
        LowToMass = chance.Perturbed(1900, scale),
        LowToSlab = chance.Perturbed(450, scale),
        SlabToGround = chance.Perturbed(60, scale),
        LowToHall = chance.Perturbed(130, scale),
        HighToHall = chance.Perturbed(150, scale),
        MixingFanOn = chance.Perturbed(9000, scale),
        MixingFanOff = chance.Perturbed(1500, scale),
    };
}
