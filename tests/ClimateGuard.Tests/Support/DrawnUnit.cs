using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Support;

/// <summary>Days of one air handler drawn by hand, minute by minute: nothing of the virtual cell is in them.</summary>
internal sealed class DrawnUnit
{
    private const long MinuteMilliseconds = 60_000;
    private static readonly long Midnight = new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();
    private readonly FrameBuilder builder;
    private readonly Cell cell;
    private int days;

    public DrawnUnit(CoolingMedium medium, params SetBack[] setBacks)
    {
        cell = new Cell(new CellDescription
        {
            Id = "drawn",
            Name = "Drawn unit",
            TimeZone = "UTC",
            Zones = [new Zone { Id = "main", AirHandlers = ["ahu"], SetBacks = setBacks }],
            Sensors =
            [
                Sensor("air", SensorPlace.Air) with { Zone = "main", HeightMetres = 1.5 },
                Sensor("supply", SensorPlace.Supply) with { AirHandler = "ahu" },
                Sensor("return", SensorPlace.Return) with { AirHandler = "ahu" },
                Sensor("outdoor", SensorPlace.Outdoor),
                Sensor("setpoint", SensorPlace.Command) with { AirHandler = "ahu" },
                Sensor("valve", SensorPlace.Command) with { AirHandler = "ahu", Quantity = SensorQuantity.Fraction, PlausibleLow = 0, PlausibleHigh = 1 },
            ],
            AirHandlers =
            [
                new AirHandler
                {
                    Id = "ahu", Medium = medium,
                    Points = new Dictionary<string, string>
                    {
                        ["supply"] = "supply", ["return"] = "return", ["outdoor"] = "outdoor",
                        ["coolingCommand"] = "valve", ["coolingSetpoint"] = "setpoint", ["compressor"] = medium == CoolingMedium.DirectExpansion ? "valve" : "none",
                    }.Where(point => point.Value != "none").ToDictionary(),
                },
            ],
        });
        builder = new FrameBuilder(cell);
    }

    /// <summary>Adds a day, the first is a Monday: room, supply, outdoor air in °C and the command from 0 to 1 at each minute; the set point is 20 °C if not told.</summary>
    public DrawnUnit Day(Func<int, (double Room, double Supply, double Outdoor, double Command)> at, Func<int, double>? setpoint = null)
    {
        for (var minute = 0; minute < 1440; minute++)
        {
            var (room, supply, outdoor, command) = at(minute);
            Add("air", minute, room);
            Add("return", minute, room);
            Add("supply", minute, supply);
            Add("outdoor", minute, outdoor);
            Add("valve", minute, command);
            Add("setpoint", minute, setpoint?.Invoke(minute) ?? 20);
        }

        days++;
        return this;
    }

    /// <summary>The findings of the last day, the likeliest first.</summary>
    public IReadOnlyList<Finding> Findings()
    {
        var report = Diagnosis.Of(builder.Build(), cell, new DiagnosisOptions { ByDay = true, TimeZone = TimeZoneInfo.Utc });
        var last = new DateOnly(2026, 3, 2).AddDays(days - 1);
        return [.. report.Findings.Where(finding => finding.Day == last).OrderByDescending(finding => finding.LogOdds)];
    }

    private void Add(string sensor, int minute, double value) =>
        builder.Add(new Reading(cell.IndexOfSensor(sensor), Midnight + (((days * 1440L) + minute) * MinuteMilliseconds), value));

    private static Sensor Sensor(string id, SensorPlace place) => new() { Id = id, Quantity = SensorQuantity.Temperature, Place = place, PlausibleLow = -20 };
}
