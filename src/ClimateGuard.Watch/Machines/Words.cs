using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>Numbers and reasons in plain words, the same on every page and in every message.</summary>
public static class Words
{
    /// <summary>A length of time as a person would say it: <c>40 s</c>, <c>7 min</c>, <c>2 h 5 min</c>.</summary>
    public static string Minutes(TimeSpan time)
    {
        if (time < TimeSpan.FromSeconds(90))
        {
            return Invariant($"{Math.Max(0, Math.Round(time.TotalSeconds)):0} s");
        }

        var minutes = (int)Math.Round(time.TotalMinutes);
        return minutes < 100
            ? Invariant($"{minutes} min")
            : minutes % 60 == 0 ? Invariant($"{minutes / 60} h") : Invariant($"{minutes / 60} h {minutes % 60} min");
    }

    /// <summary>An amount in µm with the digits that matter: one decimal below 10 µm, none above.</summary>
    public static string Micrometres(double value)
    {
        var magnitude = Math.Abs(value) < 9.95 ? Invariant($"{Math.Abs(value):0.0}") : Invariant($"{Math.Abs(value):0}");
        return value < 0 && magnitude != "0.0" ? $"−{magnitude} µm" : $"{magnitude} µm";
    }

    /// <summary>A temperature with one decimal.</summary>
    public static string Celsius(double value) => Invariant($"{value:0.0} °C");

    /// <summary>Why a reading was set aside.</summary>
    public static string Of(TrustReason reason) => reason switch
    {
        TrustReason.OutOfRange => "its value is outside its plausible range",
        TrustReason.Sentinel => "it sends the value of an open or shorted sensor",
        TrustReason.FromTheFuture => "its time stamps lie in the future",
        TrustReason.Retained => "the broker kept its last value from before, which is not live",
        TrustReason.Duplicate => "two values came for one moment",
        TrustReason.TooOld => "its readings are older than raw readings are kept",
        TrustReason.Calibrated => "corrected by its calibration",
        TrustReason.UnitMixUp => "its values look like another unit",
        TrustReason.Spike => "its value is far from those before",
        TrustReason.Stuck => "it says the same digits for too long",
        TrustReason.Swapped => "it seems to sit in the place of another sensor",
        TrustReason.ConflictingTwin => "two devices send under its id",
        TrustReason.ClockOffset => "its clock changes",
        TrustReason.StampTooOld => "its time stamps are half a year old or older",
        _ => "nothing to say",
    };

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
