using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>Every sentence the checks of a plant file can say, in alphabetical order: what was found, and what is allowed.</summary>
internal static class PlantMessages
{
    public static string AlphaPerKelvin(double alpha) =>
        $"{Number(alpha)} looks like a coefficient in 1/K; write µm/(m K), here {Number(alpha * 1e6)}";

    public static string BudgetAboveTolerance(double budgetUm, double toleranceMm) =>
        $"the budget of {Number(budgetUm)} µm is more than the whole tolerance of {Number(toleranceMm * 1000)} µm " +
        $"({Number(toleranceMm)} mm); allowed: above 0 up to the tolerance";

    public static string BudgetTwice() => "budgetUm and budgetShare are both stated and may contradict each other; keep one of them";

    public static string CalibrationTimeTwice(string from) =>
        $"two calibrations hold from {from}; keep one, or give the later one its own time";

    public static string CalibrationTimeUnreadable(string from) =>
        $"'{from}' is not a time; allowed: RFC 3339 with offset, such as 2026-01-10T08:00:00Z";

    public static string CoolantPlaceWrong(string sensor, SensorPlace place) =>
        $"sensor '{sensor}' sits in place {Word(place)}; the coolant of a machine needs a sensor of place coolant or dielectric";

    public static string DuplicateId(string what, string id, int first) =>
        $"{what} '{id}' is defined twice; the first is entry {first + 1} of this list; give each its own";

    public static string DuplicateTopic(string topic, string? other) =>
        $"topic '{topic}' already belongs to sensor '{other}'; a reading on it could not be told apart; give each sensor its own topic";

    public static string HolesMissing() =>
        "a position says where its holes are: add boltCircle: { radiusMm, count } or points: [[x, y], …] in mm from the datum";

    public static string HolesTwice() => "boltCircle and points are both stated and may contradict each other; keep one of them";

    public static string KeyNotUsed(string key, FeatureKind kind) =>
        $"{key} says nothing for a feature of kind {Word(kind)} and is not used";

    public static string LoopRangeOrder(double at4, double at20) =>
        $"loopRange [{Number(at4)}, {Number(at20)}] runs backwards; allowed: [value at 4 mA, value at 20 mA] with the first below the second";

    public static string LoopRangeWithoutLoop(SensorDevice device) =>
        $"loopRange says nothing for device {Word(device)}; write device: currentLoop, or leave loopRange out";

    public static string MaterialValueMissing(string material, string key, string meaning) =>
        $"material '{material}' has no {key}, and the material library does not know it either: add {key}, {meaning}";

    public static string NominalMissing(FeatureKind kind) => $"a feature of kind {Word(kind)} needs nominalMm, its nominal in mm";

    public static string NotATemperature(string use, string sensor, SensorQuantity quantity) =>
        $"sensor '{sensor}' measures {Word(quantity)}; {use} needs a sensor of quantity temperature";

    public static string PlausibleOrder(double low, double high) =>
        $"plausible [{Number(low)}, {Number(high)}] leaves nothing plausible; allowed: [low, high] with low below high";

    public static string PointNeedsNoTemperature(string role, string sensor, SensorQuantity quantity) =>
        $"sensor '{sensor}' measures {Word(quantity)}; the point '{role}' is a signal, a status, a pressure or a power";

    public static string ProbabilityOrder((string Key, double Value, bool Stated) low, (string Key, double Value, bool Stated) high) =>
        $"{low.Key} {Number(low.Value)}{Stated(low.Stated)} must lie below {high.Key} {Number(high.Value)}{Stated(high.Stated)}";

    public const string HoldGridOrder = "must lie above the value before it: the grid ascends";

    public static string SetBackNowhere(double setpoint) =>
        $"setpointC {Number(setpoint)} is the set point of the zone itself; a set-back keeps it elsewhere";

    public static string SetBacksMeet(int first) =>
        $"this set-back meets entry {first + 1} of the list; at one time a zone has one set point: let one end before the other begins";

    public static string SetBackWithoutLength(string time) => $"the set-back begins and ends on {time}; allowed: two different times of the week";

    public static string ShiftDayTwice(string day) => $"{day} stands twice in this shift; keep it once";

    public static string ShiftDayUnknown(string day, IReadOnlyCollection<string> days) =>
        $"'{day}' is not a day; allowed: {string.Join(", ", days)}";

    public static string ShiftTimeUnreadable(string time) => $"'{time}' is not a time of day; allowed: 00:00 to 23:59, such as 06:00";

    public static string ShiftWithoutLength(string time) =>
        $"the shift begins and ends at {time}; allowed: two different times (an end before the begin is on the next day)";

    public static string TimeZoneUnknown(string zone, IReadOnlyCollection<string> known) => known.Count <= 1
        ? $"time zone '{zone}' is unknown: this computer has no time-zone database (package tzdata); install it, or write UTC"
        : $"time zone '{zone}' is unknown; allowed: IANA names such as Europe/Vienna; {NearestNames.Hint(zone, known)}";

    public static string UnitNotAllowed(string unit, SensorQuantity quantity, IReadOnlyList<string> allowed) =>
        $"unit '{unit}' is not a unit of {Word(quantity)}; allowed: {string.Join(", ", allowed)}";

    public static string UnknownReference(string what, string id, IReadOnlyCollection<string> known) => known.Count == 0
        ? $"{what} '{id}' is unknown; the file defines none"
        : $"{what} '{id}' is unknown; {NearestNames.Hint(id, known)}";

    public static string WeekTimeUnreadable(string time) =>
        $"'{time}' is not a time of the week; allowed: a day and a time of day, such as Sat 14:30";

    public static string ZoneNotStated(string? machine, IReadOnlyCollection<string> zones) =>
        $"machine '{machine}' states no zone, and the cell has {zones.Count}; add zone, one of {string.Join(", ", zones)}";

    /// <summary>The word of the plant file for a value of ours.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum
    {
        var name = value.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    /// <summary>A number as a person would write it.</summary>
    public static string Number(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture) is var plain
        && (value == 0 || Math.Abs(value) is >= 1e-4 and < 1e12) ? plain : value.ToString("G6", CultureInfo.InvariantCulture);

    private static string Stated(bool stated) => stated ? "" : " (default)";
}
