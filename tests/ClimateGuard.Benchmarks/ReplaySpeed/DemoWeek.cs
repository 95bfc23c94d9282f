using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Benchmarks.ReplaySpeed;

/// <summary>The scripted week of the sample cell, or its first days, as files.</summary>
internal static class DemoWeek
{
    public static (long Readings, long Events) Write(Cell cell, TimeSpan length, string readings, string events)
    {
        var start = DemoScripts.MondayMidnight(cell);
        var virtualCell = new VirtualCell(cell, DemoScripts.Week(cell, 7));
        using var rows = new StreamWriter(readings);
        using var lines = File.Create(events);
        var (readingCount, eventCount) = (0L, 0L);
        rows.WriteLine("time,sensor,value,unit");
        virtualCell.Advance(
            start + length,
            reading =>
            {
                var sensor = cell.Sensors[reading.Sensor];
                rows.WriteLine(string.Create(
                    CultureInfo.InvariantCulture, $"{Rfc3339.Text(reading.Time)},{sensor.Id},{reading.Value},{SensorUnits.ByQuantity[sensor.Quantity][0]}"));
                readingCount++;
            },
            happened =>
            {
                lines.Write(EventJson.ToUtf8(happened));
                lines.WriteByte((byte)'\n');
                eventCount++;
            });
        return (readingCount, eventCount);
    }
}
