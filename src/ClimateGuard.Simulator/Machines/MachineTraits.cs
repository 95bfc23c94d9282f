using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>What a plant file does not say of a machine: heat, tank and own warmth, from its size; moved by chance so that no default is the truth.</summary>
internal sealed record MachineTraits
{
    private const double EmulsionTankJoulesPerKelvin = 4.9e6;

    public required double RunningKilowatts { get; init; }

    public required double IdleKilowatts { get; init; }

    public required double SpindleRevolutionsPerMinute { get; init; }

    public required double OwnWarmthKelvin { get; init; }

    public required double TankJoulesPerKelvin { get; init; }

    public required double TankWattsPerKelvin { get; init; }

    public required double PumpWatts { get; init; }

    public required double ChillerWatts { get; init; }

    public static MachineTraits Of(Machine machine, Chance chance, double scale)
    {
        var volume = machine.EnvelopeMillimetres is [var x, var y, var z, ..] ? x * y * z * 1e-9 : 0.5;
        var size = Math.Pow(Math.Clamp(volume, 0.02, 8.0), 0.45);
        var running = 3.0 + (5.5 * size);

        // A tank is a box of known size and its chiller has a rating plate: they are moved by a sixth of what the rest is.
        var tank = Math.Clamp(volume, 0.15, 1.0);
        return new MachineTraits
        {
            RunningKilowatts = chance.Perturbed(running, scale),
            IdleKilowatts = chance.Perturbed(0.28 * running, scale),
            SpindleRevolutionsPerMinute = Math.Round(chance.Perturbed(6000 / (1 + size), scale), 0),
            OwnWarmthKelvin = chance.Perturbed(0.10, scale),
            TankJoulesPerKelvin = chance.Perturbed(EmulsionTankJoulesPerKelvin * tank, scale / 6),
            TankWattsPerKelvin = chance.Perturbed(250 * Math.Sqrt(tank), scale / 6),
            PumpWatts = chance.Perturbed(6000 * tank, scale / 6),
            ChillerWatts = chance.Perturbed(12_500 * tank, scale / 6),
        };
    }
}
