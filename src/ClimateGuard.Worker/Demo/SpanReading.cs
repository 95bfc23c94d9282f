using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Worker.Demo;

/// <summary>What a probe would read on a known length of the part that lies on a machine of the virtual cell.</summary>
/// <param name="Machine">The machine.</param>
/// <param name="Serial">The part.</param>
/// <param name="LengthMillimetres">The length at 20 °C.</param>
/// <param name="ErrorMicrometres">The reading minus that length.</param>
internal sealed record SpanReading(string Machine, string Serial, double LengthMillimetres, double ErrorMicrometres)
{
    private const double Shortest = 100;
    private const double Longest = 1000;

    /// <summary>The longest span its features give, in whole 100 mm; null when nothing lies there.</summary>
    public static SpanReading? Of(VirtualCell world, string machine)
    {
        if (world.FindMachine(machine) is not { Part: { } part } found) return null;
        var reach = part.Part.Features.Max(feature => feature is PositionFeature position ? position.Points.Max(point => point.Radius) : Shortest);
        var length = Math.Clamp(100 * Math.Floor(reach / 100), Shortest, Longest);
        return new SpanReading(machine, part.Serial, length, -found.StrainMicrometresPerMetre * length / 1000);
    }
}
