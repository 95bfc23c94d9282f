namespace ClimateGuard.Enclosure;

/// <summary>How long a zone takes to come back.</summary>
/// <param name="Air">The air alone, at the limit of the air handler; null when it does not reach the set point by this margin.</param>
/// <param name="Mass">Machines and slab: three slow time constants.</param>
public sealed record Recovery(TimeSpan? Air, TimeSpan Mass)
{
    /// <summary>The recovery after a departure with the margin left: t = −τ·ln(1 − ΔT·K/ΔQ), K = ṁcp + Gam + UA + Gx, τ = Ca/K.</summary>
    /// <param name="room">The room.</param>
    /// <param name="departureKelvins">How far the air is off, K, from 0.</param>
    /// <param name="marginKilowatts">What the air handler can still add or take away, kW, from 0.</param>
    /// <param name="flowShare">Air flow as a share of full flow.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative departure or margin.</exception>
    public static Recovery Of(RoomModel room, double departureKelvins, double marginKilowatts, double flowShare = 1)
    {
        ArgumentNullException.ThrowIfNull(room);
        ArgumentOutOfRangeException.ThrowIfNegative(departureKelvins);
        ArgumentOutOfRangeException.ThrowIfNegative(marginKilowatts);
        var perKelvin = room.Drive(new RoomInputs(0, flowShare, 0, 0, 0, 0)).PerKelvin + room[RoomParameter.AirToMass];
        var share = departureKelvins * perKelvin / (marginKilowatts * 1000);
        var seconds = departureKelvins == 0 ? 0 : -room[RoomParameter.AirHeat] / perKelvin * Math.Log(1 - share);
        var slow = room.TimeConstants(flowShare).Slow;
        return new Recovery(
            double.IsFinite(seconds) ? TimeSpan.FromSeconds(seconds) : null, slow > TimeSpan.MaxValue / 3 ? TimeSpan.MaxValue : 3 * slow);
    }
}
