using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A part on a machine, with its true material and its true temperatures.</summary>
public sealed class VirtualPart
{
    private const double FloodedShare = 0.92;
    private static readonly TimeSpan DryingTime = TimeSpan.FromMinutes(12);
    private readonly ConductionBody body;
    private readonly double filmToBody;
    private readonly HeatTransfer film;
    private double wetShare;

    internal VirtualPart(Part part, string serial, double startCelsius, Chance chance, double scale)
    {
        Part = part;
        Serial = serial;
        var material = part.Material;
        AlphaMicrometresPerMetreKelvin = material.AlphaMicrometresPerMetreKelvin
            + (scale * chance.Normal() * material.UAlphaMicrometresPerMetreKelvin);
        body = new ConductionBody(
            part.Shape == PartShape.Cylinder,
            part.HalfThicknessMillimetres / 1000.0,
            material.ConductivityWattsPerMetreKelvin,
            material.VolumetricHeatJoulesPerCubicMetreKelvin,
            startCelsius);

        // A real part has more or less skin than the ideal slab; its share of film keeps the heat it can lose right.
        filmToBody = body.VolumeToAreaMetres / (part.VolumeToAreaMillimetres / 1000.0);
        film = new HeatTransfer
        {
            Air = chance.Perturbed(part.HeatTransfer.Air, scale),
            Fan = chance.Perturbed(part.HeatTransfer.Fan, scale),
            Mist = chance.Perturbed(part.HeatTransfer.Mist, scale),
            Flood = chance.Perturbed(part.HeatTransfer.Flood, scale),
            Submerged = chance.Perturbed(part.HeatTransfer.Submerged, scale),
        };
    }

    /// <summary>The part number's description.</summary>
    public Part Part { get; }

    /// <summary>The serial.</summary>
    public string Serial { get; }

    /// <summary>The true expansion coefficient, in µm/(m K).</summary>
    public double AlphaMicrometresPerMetreKelvin { get; }

    /// <summary>The mean temperature, in °C.</summary>
    public double MeanCelsius => body.MeanCelsius;

    /// <summary>The surface temperature, in °C.</summary>
    public double SurfaceCelsius => body.SurfaceCelsius;

    /// <summary>The part is blown dry: nothing evaporates any more.</summary>
    internal void BlowDry() => wetShare = 0;

    internal void AdvanceInAir(double airCelsius, double humidityPercent, double seconds)
    {
        var around = wetShare > 0.01
            ? Surroundings.Evaporating(wetShare, film.Air, airCelsius, WetBulb.Celsius(airCelsius, humidityPercent))
            : new Surroundings(film.Air, airCelsius);
        wetShare *= Math.Exp(-seconds / DryingTime.TotalSeconds);
        Advance(around, seconds);
    }

    internal void AdvanceInCoolant(CoolantMedium medium, double coolantCelsius, double airCelsius, double seconds)
    {
        var around = medium switch
        {
            CoolantMedium.Submerged => new Surroundings(film.Submerged, coolantCelsius),
            CoolantMedium.Mist => new Surroundings(film.Mist, coolantCelsius),
            _ => Surroundings.Blend(FloodedShare, film.Flood, coolantCelsius, film.Air, airCelsius),
        };
        wetShare = medium == CoolantMedium.Mist ? 0.3 : 0.9;
        Advance(around, seconds);
    }

    private void Advance(Surroundings around, double seconds) => body.Advance(around.Film * filmToBody, around.SinkCelsius, seconds);
}
