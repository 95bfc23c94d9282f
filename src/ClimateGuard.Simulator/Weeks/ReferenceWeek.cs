namespace ClimateGuard.Simulator;

/// <summary>The scripted week on the <see cref="ReferenceRoom"/>: air of both zones by the minute from Monday 00:00.</summary>
/// <remarks>
/// Two days of lead (a Saturday and a Sunday with the set-back) come before. Loads, run and idle, in kW: north 18 and 5, south 33 and 9;
/// lights 3 per zone from 05:00 to the end of the last shift; off is 0.15 of idle.
/// The re-tuned loop of Tuesday is not given as numbers anywhere: gain 10 and Ti 400 s were found here as the pair that hunts as described.
/// </remarks>
public sealed class ReferenceWeek
{
    private const int MinutesPerDay = 24 * 60;
    private const int LeadDays = 2;
    private static readonly DateTime Monday = new(2026, 7, 6, 0, 0, 0, DateTimeKind.Unspecified);
    private readonly double[] north = new double[7 * MinutesPerDay];
    private readonly double[] south = new double[7 * MinutesPerDay];

    private ReferenceWeek()
    {
    }

    /// <summary>Minutes in the week.</summary>
    public static int Minutes => 7 * MinutesPerDay;

    /// <summary>Air of the north zone, by minutes since Monday 00:00, in °C.</summary>
    public IReadOnlyList<double> North => north;

    /// <summary>Air of the south zone, by minutes since Monday 00:00, in °C.</summary>
    public IReadOnlyList<double> South => south;

    /// <summary>Air of the south zone during the two days before, by minutes since Saturday 00:00, in °C.</summary>
    public IReadOnlyList<double> SouthLead { get; private set; } = [];

    /// <summary>Plays the week.</summary>
    public static ReferenceWeek Play()
    {
        var week = new ReferenceWeek();
        var room = new ReferenceRoom();
        var calendar = new ShiftCalendar([]);
        var hall = new HallClimate();
        var lead = new double[LeadDays * MinutesPerDay];
        for (var minute = -LeadDays * MinutesPerDay; minute < 7 * MinutesPerDay; minute++)
        {
            if (minute >= 0) (week.north[minute], week.south[minute]) = (room.North.AirCelsius, room.South.AirCelsius);
            else lead[minute + lead.Length] = room.South.AirCelsius;
            var local = Monday.AddMinutes(minute);
            var phase = calendar.At(local);
            room.North.LoadWatts = LoadWatts(phase, 18_000, 5_000);
            room.South.LoadWatts = LoadWatts(phase, 33_000, 9_000);
            SetBack(room, minute);
            Incidents(room, minute);
            room.Advance(hall.HallCelsius(local));
        }

        week.SouthLead = lead;
        return week;
    }

    private static double LoadWatts(ShopPhase phase, double running, double idle) => phase switch
    {
        ShopPhase.Running => running + 3_000,
        ShopPhase.WarmUp => idle + 3_000,
        _ => 0.15 * idle,
    };

    // The energy programme lets the room float to 22.6 °C from the end of Saturday's shift to Monday 05:00.
    private static void SetBack(ReferenceRoom room, int minute)
    {
        var back = minute < 5 * 60 ? minute >= (14 * 60) - (LeadDays * MinutesPerDay) : minute >= At(5, 14, 0);
        room.North.SetpointCelsius = room.South.SetpointCelsius = back ? 22.6 : 20.0;
    }

    private static void Incidents(ReferenceRoom room, int minute)
    {
        var hunting = minute >= At(1, 14, 0) && minute < At(1, 18, 0);
        room.South.Loop.Gain = hunting ? 10.0 : 2.0;
        room.South.Loop.IntegralTime = TimeSpan.FromSeconds(hunting ? 400 : 1500);

        var filterLoaded = minute >= At(2, 11, 0) && minute < At(2, 19, 0);
        room.North.FlowShare = filterLoaded ? 0.60 : 1.0;
        room.North.SupplyFloorCelsius = filterLoaded ? 15.3 : 13.0;

        room.South.DoorOpen = minute >= At(3, 15, 5) && minute < At(3, 15, 31);
        room.South.FlowShare = minute >= At(5, 10, 0) && minute < At(5, 10, 35) ? 0.0 : 1.0;
    }

    private static int At(int day, int hour, int minute) => (day * MinutesPerDay) + (hour * 60) + minute;
}
