using ClimateGuard.Enclosure;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Support;

/// <summary>Days of the published reference room, minute by minute, as the sensors of its north zone would see them.</summary>
internal static class ReferenceDays
{
    public const int Day = 24 * 60;

    /// <summary>The parameters of the north zone: 3.6 and 70 MJ/K, 2.3 kW/K, 280 W/K, 6.05 kW/K, coupling 2.0 kW/K; its loads are heat as such.</summary>
    public static RoomModel North { get; } = new([3.6e6, 70e6, 2300, 280, 6050, 2000, 0, 1, 0]);

    /// <summary>Plays so many days from a Monday; a set-back over each night, machines on two shifts, a fan that stands and a door when asked for.</summary>
    public static List<ZoneMoment> Play(int days, bool eventful, double hallSwing = 4)
    {
        var room = new ReferenceRoom();
        var minutes = new List<ZoneMoment>();
        var random = new Random(11);
        for (var minute = -Day; minute < days * Day; minute++)
        {
            var clock = ((minute % Day) + Day) % Day;
            var running = clock is >= 360 and < 1320;

            // Cuts and pauses of both zones: steps of half the load at uneven times.
            room.North.LoadWatts = eventful ? 3000 + (running ? 9000 + (minute / 47 % 3 * 4500) : 800) : 12_000;
            room.South.LoadWatts = eventful ? 3000 + (running ? 20_000 + (minute / 61 % 4 * 4000) : 1400) : 20_000;
            var back = eventful && minute / Day % 2 == 1 && clock is < 300 or >= 1380;
            room.North.SetpointCelsius = back ? 22.6 : 20;
            room.South.SetpointCelsius = back ? 21.8 : 20;
            room.North.FlowShare = eventful && clock is >= 800 and < 812 ? 0 : 1;
            room.North.DoorOpen = false;
            var hall = 23 + (hallSwing * Math.Cos(2 * Math.PI * (clock - 960) / Day));
            double air = room.North.AirCelsius, next = room.South.AirCelsius;
            room.Advance(hall);
            if (minute < 0) continue;
            minutes.Add(new ZoneMoment(
                CourseOf.Monday.AddMinutes(minute).ToUnixTimeMilliseconds(), Seen((air + room.North.AirCelsius) / 2), room.North.SetpointCelsius,
                Seen(room.North.SupplyCelsius), room.North.FlowShare, hall, Seen((next + room.South.AirCelsius) / 2), room.North.LoadWatts / 1000, 0,
                back ? Regime.SetBack : Regime.InControl));
        }

        return minutes;

        // Noise of a sensor, 10 mK.
        double Seen(double celsius) => celsius + (0.01 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
    }
}
