using System.Text.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>What the air of the zones will be as JSON, for HTTP: the one place that names these fields.</summary>
public static class ForecastJson
{
    /// <summary>The forecast of each zone, and how well its forecasts held.</summary>
    /// <param name="zones">The zones; one that is not forecast has no points and says why.</param>
    public static byte[] ToUtf8(IReadOnlyList<ZoneSnapshot> zones) => JsonText.ToUtf8(zones, static (writer, zones) =>
    {
        writer.WriteStartObject();
        writer.WriteStartArray("zones");
        foreach (var zone in zones) Zone(writer, zone);
        writer.WriteEndArray();
        writer.WriteEndObject();
    });

    /// <summary>The word of a rung, such as <c>sameClock</c>.</summary>
    public static string WordOf(AirModelKind model) => JsonNamingPolicy.CamelCase.ConvertName(model.ToString());

    private static void Zone(Utf8JsonWriter writer, ZoneSnapshot zone)
    {
        var forecast = zone.Forecast;
        var told = forecast is { Points.Count: > 0 };
        writer.WriteStartObject();
        writer.WriteString("zone", zone.Zone);
        writer.WriteTime("at", told ? forecast!.At : null);
        writer.WriteRounded("airC", told ? forecast!.AirCelsius : null, 3);
        writer.WriteString("regime", AirJson.WordOf(forecast?.Regime ?? zone.Regime));
        writer.WriteStartArray("points");
        foreach (var point in forecast?.Points ?? []) Point(writer, forecast!.At, point);
        writer.WriteEndArray();
        writer.WriteStartArray("scores");
        foreach (var score in zone.Scores) Score(writer, score);
        writer.WriteEndArray();
        writer.WriteTexts("notes", forecast?.Notes ?? ["No forecast is made yet."]);
        writer.WriteEndObject();
    }

    private static void Point(Utf8JsonWriter writer, DateTimeOffset from, ForecastPoint point)
    {
        writer.WriteStartObject();
        writer.WriteNumber("aheadMinutes", (int)point.Ahead.TotalMinutes);
        writer.WriteTime("at", from + point.Ahead);
        writer.WriteRounded("airC", point.Celsius, 3);
        writer.WriteRounded("lowC", point.LowCelsius, 3);
        writer.WriteRounded("highC", point.HighCelsius, 3);
        writer.WriteString("model", WordOf(point.Model));
        writer.WriteNumber("errorsKnown", point.Residuals);
        writer.WriteBoolean("widened", point.Widened);
        writer.WriteEndObject();
    }

    private static void Score(Utf8JsonWriter writer, ForecastScore score)
    {
        writer.WriteStartObject();
        writer.WriteString("regime", AirJson.WordOf(score.Regime));
        writer.WriteNumber("aheadMinutes", (int)score.Ahead.TotalMinutes);
        writer.WriteString("model", WordOf(score.Model));
        writer.WriteNumber("told", score.Told);
        writer.WriteRounded("maeK", score.MaeKelvins, 4);
        writer.WriteRounded("persistenceMaeK", score.PersistenceMaeKelvins, 4);
        writer.WriteNumber("intervalsTold", score.IntervalsTold);
        writer.WriteRounded("coverage", score.Coverage, 4);
        writer.WriteEndObject();
    }
}
