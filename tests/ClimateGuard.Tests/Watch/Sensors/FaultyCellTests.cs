using ClimateGuard.Simulator;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>Each fault of a sensor is put into the virtual cell, and must be found with the right reason within the time stated beside it.</summary>
public sealed class FaultyCellTests
{
    private static readonly DateTimeOffset Monday = new(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);

    public static TheoryData<string, string, TrustReason, int> Faults => new()
    {
        { "air/n2", "freeze", TrustReason.Stuck, 63 },
        { "m3/coolant", "freeze", TrustReason.Stuck, 63 },
        { "air/n2", "sun", TrustReason.Outvoted, 16 },
        { "air/s4", "sun", TrustReason.Outvoted, 16 },
        { "air/n2", "twin", TrustReason.ConflictingTwin, 4 },
        { "air/n2", "clock", TrustReason.ClockOffset, 3 },
        { "air/n2", "fahrenheit", TrustReason.UnitMixUp, 3 },
        { "air/n2", "tenths", TrustReason.UnitMixUp, 3 },
        { "air/n2", "kelvin", TrustReason.UnitMixUp, 3 },
        { "outdoor/t", "fahrenheit", TrustReason.UnitMixUp, 3 },
        { "m1/coolant", "open", TrustReason.Sentinel, 3 },
        { "air/n2", "rare", TrustReason.PeriodChanged, 62 },
        { "air/n2", "coarse", TrustReason.Quantised, 24 * 60 },
        { "air/n2", "spikes", TrustReason.Noisy, 30 },
        { "air/n2", "rag", TrustReason.Slow, 24 * 60 },
        { "air/n2", "drift", TrustReason.Drifting, 5 * 24 * 60 },
        { "air/n2", "swap", TrustReason.Swapped, 12 },
        { "hall/wallN", "swap", TrustReason.Swapped, 12 },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_fault_is_found_with_its_reason_in_time_and_nobody_else_is_accused(string sensor, string fault, TrustReason reason, int minutes)
    {
        foreach (var seed in (int[])[1, 2, 3])
        {
            var cell = new TrustedCell(HealthyCellTests.Sample, seed, Monday, fault == "rag" ? RoomThatMoves() : DemoScripts.CoolantTrip(HealthyCellTests.Sample));
            cell.Run(TimeSpan.FromHours(10));
            cell.Alerts.Clear();
            foreach (var action in Actions(sensor, fault))
            {
                cell.Do(action);
            }

            var took = cell.RunUntil(sensor, reason, TimeSpan.FromMinutes(minutes));
            Assert.True(took is not null, $"seed {seed}: {cell.Summary()}");
            string[] named = fault == "swap" ? ["air/n2", "hall/wallN"] : [sensor];
            Assert.All(cell.Alerts, alert => Assert.Contains(named, name => alert.Alert.Text.StartsWith(name, StringComparison.Ordinal)));
            TestContext.Current.TestOutputHelper?.WriteLine($"{sensor} {fault} seed {seed}: {took}");
        }
    }

    [Fact]
    public void A_sensor_that_drifts_three_tenths_of_a_kelvin_in_three_months_is_found_before_it_is_four_tenths_off()
    {
        var cell = new TrustedCell(QuietZone.Cell, 1, Monday);
        cell.Do(new DriftSensor("air/a1", 0.3 / 91));

        var took = cell.RunUntil("air/a1", TrustReason.Drifting, TimeSpan.FromDays(121));

        Assert.True(took > TimeSpan.FromDays(30), $"{took}; {cell.Summary()}");
        Assert.Equal("air/a1", cell.Alerts.Single().Alert.Id.Split('/')[1] + "/" + cell.Alerts.Single().Alert.Id.Split('/')[2]);
    }

    private static IEnumerable<CellAction> Actions(string sensor, string fault) => fault switch
    {
        "freeze" => [new FreezeSensor(sensor, true)],
        "sun" => [new ShineOn(sensor, 2.3)],
        "twin" => [new AddTwin(sensor, 4.0)],
        "clock" => [new SetSensorClockAhead(sensor, TimeSpan.FromMinutes(7))],
        "fahrenheit" => [new GarbleSensor(sensor, celsius => (celsius * 9 / 5) + 32)],
        "tenths" => [new GarbleSensor(sensor, celsius => Math.Round(celsius * 10))],
        "kelvin" => [new GarbleSensor(sensor, celsius => celsius + 273.15)],
        "open" => [new GarbleSensor(sensor, _ => 850)],
        "rare" => [new ReportEvery(sensor, TimeSpan.FromMinutes(10))],
        "coarse" => [new CoarsenSensor(sensor, 0.2)],
        "spikes" => [new DisturbSensor(sensor, 6, 0.3)],
        "rag" => [new SlowSensor(sensor, 25)],
        "drift" => [new OffsetSensor(sensor, 0.55)],
        _ => [new SwapSensors("air/n2", "hall/wallN")],
    };

    // Every three hours the set point of the zone goes up or down by a kelvin and a half.
    private static Script RoomThatMoves() => Script.Cycles(TimeSpan.FromHours(3), number =>
        [new TimedAction(TimeSpan.FromHours(1), new MoveSetpoint("N", number % 2 == 0 ? 21.5 : 20.0))]);
}
