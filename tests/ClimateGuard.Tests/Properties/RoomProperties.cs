using ClimateGuard.Enclosure;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class RoomProperties
{
    private static readonly Gen<RoomModel> Room = Gen.Select(Gen.Double[1e6, 1e7], Gen.Double[2e7, 2e8], Gen.Double[500, 6000], Gen.Double[50, 1000], Gen.Double[1000, 15_000], Gen.Double[0, 4000])
        .Select((air, mass, link, hall, flow, next) => new RoomModel([air, mass, link, hall, flow, next, 3000, 0.9, 500]));

    private static readonly Gen<RoomInputs> Inputs = Gen.Select(Gen.Double[12, 28], Gen.Double[0, 1], Gen.Double[10, 38], Gen.Double[18, 24], Gen.Double[0, 50], Gen.Double[0, 1])
        .Select((supply, flow, hall, next, load, door) => new RoomInputs(supply, flow, hall, next, load, door));

    [Fact]
    public void Where_everything_stays_air_and_mass_end_where_heat_in_and_out_balance() => Gen.Select(Room, Inputs, Gen.Double[10, 30]).Sample((room, inputs, start) =>
    {
        var end = room.SteadyCelsius(inputs);
        var watts = (room[RoomParameter.FullFlow] * inputs.FlowShare * (inputs.SupplyCelsius - end))
            + ((room[RoomParameter.ToHall] + (room[RoomParameter.Door] * inputs.DoorOpen)) * (inputs.HallCelsius - end))
            + (room[RoomParameter.NextZone] * (inputs.NextZoneCelsius - end)) + (900 * inputs.LoadKilowatts) + 500;
        var (air, mass) = new RoomTransition(room, inputs, 1e9).Step(start, start, room.Drive(inputs).Watts);
        return Math.Abs(watts) < 1e-6 * 1e5 && Math.Abs(air - end) < 1e-6 && Math.Abs(mass - end) < 1e-6;
    });

    [Fact]
    public void Two_steps_are_one_of_their_length() => Gen.Select(Room, Inputs, Gen.Double[10, 4000], Gen.Double[10, 4000], Gen.Double[10, 30], Gen.Double[10, 30]).Sample(
        (room, inputs, first, second, air, mass) =>
        {
            var watts = room.Drive(inputs).Watts;
            var (a, m) = new RoomTransition(room, inputs, first).Step(air, mass, watts);
            (a, m) = new RoomTransition(room, inputs, second).Step(a, m, watts);
            var (one, oneMass) = new RoomTransition(room, inputs, first + second).Step(air, mass, watts);
            return Math.Abs(a - one) < 1e-8 && Math.Abs(m - oneMass) < 1e-8;
        });

    [Fact]
    public void The_exact_step_is_the_limit_of_small_ones() => Gen.Select(Room, Inputs, Gen.Double[10, 30], Gen.Double[10, 30]).Sample(
        (room, inputs, air, mass) =>
        {
            var (watts, perKelvin) = room.Drive(inputs);
            double a = air, m = mass, link = room[RoomParameter.AirToMass];
            const double dt = 0.02;
            for (var k = 0; k < 15_000; k++)
            {
                var toMass = link * (a - m);
                a += dt * (watts - (perKelvin * a) - toMass) / room[RoomParameter.AirHeat];
                m += dt * toMass / room[RoomParameter.MassHeat];
            }

            var (one, oneMass) = new RoomTransition(room, inputs, 300).Step(air, mass, watts);
            return Math.Abs(a - one) < 2e-3 && Math.Abs(m - oneMass) < 2e-3;
        },
        iter: 20);

    [Fact]
    public void The_fast_time_is_shorter_than_the_slow_one_and_more_flow_makes_both_shorter() => Gen.Select(Room, Gen.Double[0.1, 0.9]).Sample((room, flow) =>
    {
        var (fast, slow) = room.TimeConstants(1);
        var (fastLess, slowLess) = room.TimeConstants(flow);
        return fast < slow && fast <= fastLess && slow <= slowLess;
    });
}
