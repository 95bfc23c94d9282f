using System.Globalization;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Worker.Demo;

/// <summary>What was asked of the demo on the command line.</summary>
internal sealed record DemoWishes(double Speed, int Port, int Seed, string Story, string PlantFile)
{
    private const string FromFormat = "yyyy-MM-dd'T'HH:mm";
    private static readonly DateTime Monday = new(2026, 7, 6, 0, 0, 0, DateTimeKind.Unspecified);

    public string History { get; init; } = "21d";

    public string? FromText { get; init; }

    public bool WithHistory => Story == "week" && History == "21d";

    /// <summary>What is wrong with it, for the person who typed it; null when nothing is.</summary>
    public string? Problem() =>
        Speed is not (>= 1 and <= 600) || Port is < 1 or > 65535 ? "--speed takes 1 to 600, --port 1 to 65535."
        : Story is not ("trip" or "week") ? $"--story is \"{Story}\"; allowed: trip, week."
        : History is not ("21d" or "none") ? $"--history is \"{History}\"; allowed: 21d, none."
        : FromText is null ? null
        : Story != "week" ? "--from joins the week; add --story week."
        : Joined() is { } local && local >= Monday && local < Monday.AddDays(7) ? null
        : $"--from is \"{FromText}\"; allowed: local time of the cell from 2026-07-06T00:00 to 2026-07-12T23:59.";

    /// <summary>The moment at which the story is joined.</summary>
    public DateTimeOffset From(Cell cell) => Story != "week" ? DemoScripts.ThursdayMorning(cell)
        : Joined() is { } local ? DemoScripts.InWeek(cell, local - Monday)
        : DemoScripts.MondayMidnight(cell);

    /// <summary>The cell that plays it.</summary>
    public VirtualCell World(Cell cell) => new(cell, Story != "week"
        ? new VirtualCellOptions(Seed, DemoScripts.ThursdayMorning(cell), DemoScripts.CoolantTrip(cell))
        : WithHistory ? DemoScripts.WeekWithHistory(cell, Seed) : DemoScripts.Week(cell, Seed));

    /// <summary>The inspection of the week, on its Friday at 14:00; the other story has none.</summary>
    public DemoInspection? Inspection(Cell cell, string folder) =>
        Story == "week" ? new DemoInspection(DemoScripts.InWeek(cell, new TimeSpan(4, 14, 0, 0)), Path.Combine(folder, "demo-results.csv"), Seed) : null;

    private DateTime? Joined() =>
        DateTime.TryParseExact(FromText, FromFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) ? local : null;
}
