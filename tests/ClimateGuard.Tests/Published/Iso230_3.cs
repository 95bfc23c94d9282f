using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>ISO 230-3:2020, environmental temperature variation error: largest range in a window (procedure from memory).</summary>
public sealed class Iso230_3
{
    // d(t) = 5·sin(2πt/24) + 0.5·sin(2πt + 0.3) µm, t in h, every 5 min for 48 h: a constructed record, recomputed elsewhere.
    private static List<(TimeSpan, double)> Record() =>
    [
        .. Enumerable.Range(0, 577).Select(i =>
        {
            var t = i / 12.0;
            return (TimeSpan.FromMinutes(5 * i), (5 * Math.Sin(2 * Math.PI * t / 24)) + (0.5 * Math.Sin((2 * Math.PI * t) + 0.3)));
        }),
    ];

    [Theory]
    [InlineData(1, 1.728015490)]
    [InlineData(4, 5.485407648)]
    [InlineData(8, 9.339526421)]
    [InlineData(12, 10.951320370)]
    [InlineData(24, 10.951320370)]
    [InlineData(48, 10.951320370)]
    public void The_largest_range_in_a_window_is_found(double windowHours, double expectedMicrometres)
    {
        var found = WindowedRange.Largest(Record(), TimeSpan.FromHours(windowHours));
        Within.Absolute(expectedMicrometres, found.Range, 1e-9);
        Assert.InRange(found.To - found.From, TimeSpan.Zero, TimeSpan.FromHours(windowHours));
    }

    [Fact]
    public void A_tilt_is_the_difference_over_the_spacing() =>
        Within.Absolute(40, WindowedRange.TiltMicroradians(4, 0, 100), 1e-12); // 4 µm over 100 mm

    [Fact]
    public void Samples_out_of_order_are_refused_with_their_times()
    {
        var fault = Assert.Throws<ArgumentOutOfRangeException>(() => WindowedRange.Largest(
            [(TimeSpan.FromMinutes(5), 1.0), (TimeSpan.FromMinutes(4), 2.0)], TimeSpan.FromHours(1)));
        Assert.Contains("00:04:00 comes after 00:05:00", fault.Message, StringComparison.Ordinal);
    }
}
