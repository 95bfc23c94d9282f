namespace ClimateGuard.Simulator;

/// <summary>The inspection of what a story made, with its two cases that are not temperature alone.</summary>
/// <remarks>
/// Invented. The planet carriers 118 to 121 were cut after the probe had been calibrated wrongly: the whole pattern is moved by 14 µm and its scale is
/// right. The pump housings of the late shift were clamped by operator B, 2.5 µm longer, in nights that were also cooler: who looks at the air
/// alone finds a cause that is not proven.
/// </remarks>
public static class WeekInspection
{
    /// <summary>What operator B clamps a distance longer by, in µm.</summary>
    public const double OperatorB = 2.5;

    private const string Operation = "40";
    private const double ShiftComponent = 9.9; // of 14 µm at 45°

    /// <summary>The serials after the wrong calibration.</summary>
    public static IReadOnlyList<string> Recalibrated { get; } = ["PC-620-118", "PC-620-119", "PC-620-120", "PC-620-121"];

    /// <summary>The lines of <c>results.csv</c> with their header, of every part that was cut and has been inspected by now; the cell must keep its truth.</summary>
    public static IReadOnlyList<string> Lines(VirtualCell cell, int seed)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var device = new InspectionDevice(cell, seed);
        var clock = new LocalClock(cell.Description.Description.TimeZone);
        foreach (var serial in Recalibrated) device.Shifts[serial] = (ShiftComponent, ShiftComponent);
        var cut = cell.Cuts.Select(record => record.Serial).ToHashSet(StringComparer.Ordinal);
        var lines = new List<string> { InspectionRow.Header };
        foreach (var ask in cell.Asks.Where(ask => cut.Contains(ask.Serial)).GroupBy(ask => ask.Serial).Select(asks => asks.Last()))
        {
            var late = clock.Local(ask.Time.ToUnixTimeMilliseconds()).Hour is >= 14 and < 22;
            if (late) device.Offsets[ask.Serial] = OperatorB;
            var inspected = ask.Time + ask.Duration + TimeSpan.FromHours(2);
            if (inspected > cell.Now) continue;
            lines.AddRange(device.Inspect(ask, inspected).Select(row => row.Line(Operation, late ? "CMM-1 operator B" : "CMM-1 operator A")));
        }

        return lines;
    }
}
