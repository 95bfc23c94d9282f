using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What is wrong with a sensor, in plain words: what, where, what becomes of the readings, what to do.</summary>
internal static class ConditionWords
{
    private const string Aside = "Its readings are kept but set aside";
    private const string NoVote = "Its readings are kept, but have no vote while its neighbours have one";

    /// <summary>The cause in a few words, as alerts name it.</summary>
    public static string Name(TrustReason cause) => cause switch
    {
        TrustReason.OutOfRange => "sensor out of range",
        TrustReason.Sentinel => "sensor broken",
        TrustReason.FromTheFuture => "sensor clock wrong",
        TrustReason.StampTooOld => "sensor clock wrong",
        TrustReason.UnitMixUp => "sensor unit mixed up",
        TrustReason.Stuck => "sensor stuck",
        TrustReason.Quantised => "sensor coarse",
        TrustReason.Slow => "sensor slow",
        TrustReason.Drifting => "sensor drifting",
        TrustReason.Outvoted => "sensor outvoted",
        TrustReason.Swapped => "sensors swapped",
        TrustReason.ConflictingTwin => "sensor id used twice",
        TrustReason.ClockOffset => "sensor clock ahead",
        TrustReason.PeriodChanged => "sensor period changed",
        TrustReason.Noisy => "sensor noisy",
        TrustReason.Recalibrated => "sensor recalibrated",
        _ => "sensor",
    };

    /// <summary>A condition that begins.</summary>
    public static SensorCondition Of(SensorRecord record, TrustReason cause, DateTimeOffset since)
    {
        var (text, action) = Words(record, cause);
        return new SensorCondition(cause, since, $"{record.Sensor.Id} {text}", action);
    }

    /// <summary>A condition that is over.</summary>
    public static string Over(Sensor sensor, SensorCondition condition) => $"{sensor.Id}: {Name(condition.Cause)} is over; its readings are used again.";

    private static (string Text, string Action) Words(SensorRecord record, TrustReason cause) => cause switch
    {
        TrustReason.OutOfRange => (
            Invariant($"sends values outside its plausible range {record.Sensor.PlausibleLow} to {record.Sensor.PlausibleHigh}. {Aside}."),
            "Check the sensor, or the key plausible in the plant file."),
        TrustReason.Sentinel => ($"sends the value of an open, shorted or unpowered probe. {Aside}.", "Check probe, cable and plug."),
        TrustReason.FromTheFuture => ($"sends time stamps from the future, and not by a steady offset. {Aside}.", "Set the clock of its gateway."),
        TrustReason.StampTooOld => ($"sends time stamps that are half a year old or older. {Aside}.", "Set the clock of its gateway."),
        TrustReason.UnitMixUp => (
            $"{UnitMixUp.Says(record.Mistaken.Value, record.Mistaken.Unit)}. {Aside}; nothing is converted on a guess.",
            "Correct the unit at the sender, or the key unit in the plant file."),
        TrustReason.Stuck => (
            Invariant($"says the same digits since {DateTimeOffset.FromUnixTimeMilliseconds(record.Stuck.Since):HH:mm} UTC although they should move. {Aside} until it moves."),
            "Check gateway, battery and cable."),
        TrustReason.Swapped => (
            $"and {record.SwappedWith!.Sensor.Id} seem to be swapped: it looks like {record.Sensor.Id} <-> {record.SwappedWith.Sensor.Id}. {Aside}.",
            $"Put {record.Sensor.Id} and {record.SwappedWith.Sensor.Id} back in their places."),
        TrustReason.ConflictingTwin => (Twin(record), "Give each device an id of its own."),
        TrustReason.ClockOffset => (
            Invariant($"has a clock that is {record.Stamps.Ahead / 1000.0:0.#} s ahead; this is taken off its time stamps."), "Set the clock of its gateway."),
        _ => Flag(record, cause),
    };

    private static (string Text, string Action) Flag(SensorRecord record, TrustReason cause) => cause switch
    {
        TrustReason.Outvoted => (
            $"reads {Off(record.Level!.Departure)} its neighbours, which agree: sun, an exhaust or a heater near it. {NoVote}.",
            "Shade it, or move it away from the heat."),
        TrustReason.Drifting => (
            $"reads {Off(record.Level!.DriftKelvins)} its neighbours for days: an offset or a drift. {NoVote}.",
            "Calibrate it beside the others: climateguard calibrate."),
        TrustReason.Slow => (
            Invariant($"follows its zone {record.Lag!.Minutes} min late. {NoVote}."), "Check whether it is covered, dirty or boxed in; relocate it."),
        TrustReason.Noisy => (
            "sends many values far from those around them. These are set aside one by one; the others are used.", "Check cable, shield and earth."),
        TrustReason.PeriodChanged => (
            $"reports every {Watch.Words.Minutes(record.Period.Period)} instead of every {Watch.Words.Minutes(record.Sensor.Period)}. Its age is judged by what it does.",
            "Correct the sender, or the key periodS in the plant file."),
        TrustReason.Quantised => (
            Invariant($"comes in steps of {record.Steps.Size:0.###}, coarser than stated. Its readings are used; nothing is read from changes below a step."),
            "State the key resolution, or set the sender to more digits."),
        _ => ("is another sensor or newly calibrated since a short while; a step now is not temperature, and it counts as less certain.", "Nothing to do."),
    };

    private static string Twin(SensorRecord record)
    {
        var (one, other) = record.Twin.Values;
        return Invariant($"gets readings from two devices by turns (lately {one:0.0#} and {other:0.0#}). {Aside}, of both.");
    }

    private static string Off(double kelvins) => Invariant($"{Math.Abs(kelvins):0.0#} K {(kelvins < 0 ? "below" : "above")}");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
