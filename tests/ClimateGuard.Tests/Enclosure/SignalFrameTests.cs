using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Readings of any order become minutes; what is wrong with them is said.</summary>
public sealed class SignalFrameTests
{
    private static readonly Cell Cell = SmallCell.Of();
    private static readonly int Air = Cell.IndexOfSensor("air/a1");
    private static readonly long Midnight = new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    [Fact]
    public void Out_of_order_and_repeated_readings_give_the_same_minutes_and_are_told()
    {
        var frame = Of(At(2, 20.3), At(0, 20.1), At(1, 20.2), At(1, 20.2));

        Assert.Equal([20.1, 20.2, 20.3], frame.Row(Air)!.Take(3));
        Assert.Contains(frame.Notes, n => n.Contains("out of order", StringComparison.Ordinal));
        Assert.Contains(frame.Notes, n => n.Contains("repeated", StringComparison.Ordinal));
    }

    [Fact]
    public void A_missed_reading_is_bridged_and_a_gap_stays_a_gap()
    {
        var row = Of(At(0, 20.0), At(1, 20.0), At(3, 21.0), At(60, 22.0)).Row(Air)!;

        Assert.Equal(20.5, row[2], 1e-9);
        Assert.True(double.IsNaN(row[30]));
    }

    [Fact]
    public void A_column_in_another_unit_is_left_out_and_named()
    {
        var frame = Of([.. Enumerable.Range(0, 60).Select(m => At(m, 70.5))]); // °F where °C is stated

        Assert.All(frame.Row(Air)!, value => Assert.True(double.IsNaN(value)));
        Assert.Contains(frame.Notes, n => n.Contains("air/a1", StringComparison.Ordinal) && n.Contains("°F", StringComparison.Ordinal));
    }

    [Fact]
    public void Single_values_in_another_unit_are_left_out_and_the_others_stay()
    {
        var frame = Of([.. Enumerable.Range(0, 60).Select(m => At(m, m % 10 == 5 ? 68.9 : 20.5))]);

        Assert.Equal(20.5, frame.Row(Air)![5], 1e-9);
        Assert.Contains(frame.Notes, n => n.Contains("another unit", StringComparison.Ordinal));
    }

    [Fact]
    public void No_readings_at_all_are_an_error_for_the_person() =>
        Assert.Contains("no readings", Assert.Throws<InvalidOperationException>(() => new FrameBuilder(Cell).Build()).Message, StringComparison.Ordinal);

    private static Reading At(int minute, double value) => new(Air, Midnight + (minute * 60_000L), value);

    private static SignalFrame Of(params Reading[] readings)
    {
        var builder = new FrameBuilder(Cell);
        foreach (var reading in readings) builder.Add(reading);
        return builder.Build();
    }
}
