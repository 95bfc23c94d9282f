using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>A zone as a room in words for the technician. Pure.</summary>
public static class RoomWords
{
    /// <summary>A parameter with its interval, or that it is not known.</summary>
    public static string Parameter(ProfileInterval interval)
    {
        ArgumentNullException.ThrowIfNull(interval);
        var name = FindingWords.Capital(interval.Parameter.Name());
        if (!interval.Identified) return $"{name}: not known.";
        var (unit, scale) = interval.Parameter switch
        {
            RoomParameter.AirHeat or RoomParameter.MassHeat => ("MJ/K", 1e-6),
            RoomParameter.LoadShare => ("%", 100.0),
            _ => ("kW/K", 1e-3),
        };
        return $"{name}: {Three(interval.Value * scale)} {unit} ({Three(interval.Low * scale)} to {Three(interval.High * scale)}).";
    }

    /// <summary>How far the room as described went from what was measured on days it had not seen.</summary>
    public static string FreeRun(RoomValidation validation)
    {
        ArgumentNullException.ThrowIfNull(validation);
        if (validation.Days == 0) return "It was not tried on a day it had not seen: take its answers with care.";
        (string When, double Kelvins)[] all = [("in control", validation.InControlKelvins), ("otherwise", validation.OtherwiseKelvins)];
        var errors = string.Join(", ", all.Where(error => double.IsFinite(error.Kelvins)).Select(error => Say($"{error.Kelvins:0.00} K {error.When}")));
        var care = validation.Holds ? "" : Say($": more than {RoomValidation.MostInControl:0.00} K in control or {RoomValidation.MostOtherwise:0.0} K otherwise, so take its answers with care");
        return Say($"On {validation.Days} {(validation.Days == 1 ? "day" : "days")} it had not seen it went wrong by {errors}{care}.");
    }

    /// <summary>What the room answers, a sentence each.</summary>
    /// <param name="room">The room.</param>
    /// <param name="answers">Its answers.</param>
    /// <param name="machineKilowatts">The power of one more machine that was asked for, kW.</param>
    public static IReadOnlyList<string> Of(DescribedRoom room, RoomAnswers answers, double machineKilowatts)
    {
        ArgumentNullException.ThrowIfNull(room);
        ArgumentNullException.ThrowIfNull(answers);
        var lines = new List<string>();
        if (answers.UsualDay is { } usual) lines.Add(Say($"At the hardest hour of a usual day {usual.LeastMarginKilowatts:0.0} kW of cooling are left."));
        if (answers.WarmDay is { } warm) lines.Add(WarmDay(warm, answers.UsualDay));
        if (answers.Recovery is { } recovery)
        {
            var air = recovery.Air is { } back ? $"the air alone is back in {CellTime.Length(back)}" : "the air alone does not come back with what is left";
            lines.Add(Say($"After {room.Zone.Band.Value:0.0#} K too warm on such a day {air}; machines and slab take {Mass(recovery.Mass)}."));
        }

        if (answers.MachineOnUsualDay is { } more) lines.Add(Machine(machineKilowatts, more, "a usual day"));
        if (answers.MachineOnWarmDay is { } hot) lines.Add(Machine(machineKilowatts, hot, "the warm day"));
        lines.AddRange(answers.SetBacks
            .GroupBy(answer => (answer.SetBack.From.Time, answer.SetBack.Until.Time, answer.SetBack.Setpoint, answer.ShiftBegins, answer.Cost, answer.AtMost))
            .Select(alike => SetBack(room, alike.First(), alike.Count())));
        if (room.SetBacks.Count == 0 && room.Found is not null) lines.Add("No set-back is stated in the plant file (zones: setBacks) and none was seen.");
        return lines;
    }

    private static string WarmDay(DesignDay day, DesignDay? usual)
    {
        var limit = day.AtCapacity > TimeSpan.Zero ? $"at its limit for {CellTime.Length(day.AtCapacity)}" : "never at its limit";
        return Say($"With a hall {RoomAnswers.DesignHallKelvins:0} K warmer the air goes at most {Math.Max(0, day.MostKelvins):0.0} K above and {Math.Max(0, -day.LeastKelvins):0.0} K below its set point{Beside(usual)}, {limit}; {day.LeastMarginKilowatts:0.0} kW are left at the hardest hour.");
    }

    private static string Beside(DesignDay? usual) =>
        usual is null ? "" : Say($" (on a usual day {Math.Max(0, usual.MostKelvins):0.0} and {Math.Max(0, -usual.LeastKelvins):0.0} K, played the same way)");

    private static string Machine(double kilowatts, OneMoreMachine machine, string day)
    {
        var held = machine.MarginLeftKilowatts >= 0
            ? Say($"{machine.MarginLeftKilowatts:0.0} kW are left and the set point is held")
            : Say($"{-machine.MarginLeftKilowatts:0.0} kW are lacking and the air stays {machine.WarmerKelvins:0.0} K too warm");
        return Say($"One more machine of {kilowatts:0.#} kW on {day}: {machine.HeatKilowatts:0.0} kW of heat; {held}.");
    }

    private static string SetBack(DescribedRoom room, SetBackAnswer answer, int alike)
    {
        var what = Say($"{(room.Zone.SetBacks.Contains(answer.SetBack) ? "Stated" : "Seen")} set-back {answer.SetBack.From} to {answer.SetBack.Until}{(alike > 1 ? $" and {alike - 1} more like it," : "")} at {answer.SetBack.Setpoint.Value:0.0} °C");
        var air = answer.Cost.AirInBand is { } back ? $"the air is in its band {After(back)}" : "the air is not in its band that day";
        var mass = answer.Cost.MassSettled is { } settled ? $"machines and slab {After(settled)}" : "machines and slab not that day";
        var from = answer.ShiftBegins is { } begins ? $"of the shift from {begins.ToString("HH:mm", CultureInfo.InvariantCulture)}" : "after its end";
        return Say($"{what}: {air}, {mass}; {(answer.AtMost ? "at most " : "")}{answer.Cost.HoursLost:0.0} h {from} are lost.");
    }

    // Three digits are more than such a value deserves, and enough.
    private static string Three(double value) =>
        value.ToString(value switch { >= 100 => "0", >= 10 => "0.#", _ => "0.##" }, CultureInfo.InvariantCulture);

    private static string After(TimeSpan time) => time == TimeSpan.Zero ? "at its end" : $"{CellTime.Length(time)} after its end";

    private static string Mass(TimeSpan mass) => mass == TimeSpan.MaxValue ? "for ever" : CellTime.Length(mass);

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
