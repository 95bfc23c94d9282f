using System.Text.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>What is known of the air as JSON, for HTTP: the one place that names these fields.</summary>
public static class AirJson
{
    /// <summary>Below this a candidate of the ranking is left out, unless it says what is missing.</summary>
    public const double LeastProbability = 0.02;

    /// <summary>Findings that stand and those closed last, and for each air handler the ranking with the next best check.</summary>
    /// <param name="air">What is known of the air.</param>
    /// <param name="cell">The cell, for the limits in force.</param>
    public static byte[] Findings(AirSnapshot air, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(air);
        ArgumentNullException.ThrowIfNull(cell);
        return JsonText.ToUtf8((air, new FindingLimits(cell.Description.Policies)), static (writer, value) =>
        {
            var (air, limits) = value;
            writer.WriteStartObject();
            writer.WriteTime("judgedAt", air.JudgedAt);
            writer.WriteTime("knownFrom", air.KnownFrom);
            Cases(writer, "findings", air.Findings, limits);
            Cases(writer, "closed", air.Closed, limits);
            writer.WriteStartArray("airHandlers");
            foreach (var unit in air.Units) Unit(writer, unit);
            writer.WriteEndArray();
            writer.WriteTexts("notes", air.Notes);
            writer.WriteEndObject();
        });
    }

    /// <summary>Excursions, and how the air of each zone is being kept.</summary>
    /// <param name="excursions">The excursions, newest first.</param>
    /// <param name="zones">The zones.</param>
    /// <param name="leftOff">Whether older ones were left off.</param>
    public static byte[] Excursions(IReadOnlyList<ZoneExcursion> excursions, IReadOnlyList<ZoneSnapshot> zones, bool leftOff) =>
        JsonText.ToUtf8((excursions, zones, leftOff), static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteStartArray("excursions");
            foreach (var excursion in value.excursions)
            {
                writer.WriteStartObject();
                ExcursionJson.WriteFields(writer, excursion);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteBoolean("leftOff", value.leftOff);
            writer.WriteStartArray("zones");
            foreach (var zone in value.zones)
            {
                writer.WriteStartObject();
                writer.WriteString("zone", zone.Zone);
                writer.WriteString("regime", WordOf(zone.Regime));
                writer.WriteTime("since", zone.Since);
                writer.WriteRounded("errorK", zone.ErrorKelvins, 2);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        });

    /// <summary>One finding with the limits in force.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="cell">The cell.</param>
    public static byte[] Finding(FindingCase finding, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return JsonText.ToUtf8((finding, new FindingLimits(cell.Description.Policies)), static (writer, value) => One(writer, value.finding, value.Item2));
    }

    /// <summary>The word of a regime, such as <c>at capacity</c>.</summary>
    public static string WordOf(Regime regime) => regime switch
    {
        Regime.InControl => "in control",
        Regime.AtCapacity => "at capacity",
        Regime.Recovering => "recovering",
        Regime.Off => "off",
        Regime.SetBack => "set-back",
        Regime.OutsideTheModel => "outside the model",
        _ => "not known",
    };

    private static void Cases(Utf8JsonWriter writer, string name, IReadOnlyList<FindingCase> findings, FindingLimits limits)
    {
        writer.WriteStartArray(name);
        foreach (var finding in findings) One(writer, finding, limits);
        writer.WriteEndArray();
    }

    private static void One(Utf8JsonWriter writer, FindingCase finding, FindingLimits limits)
    {
        writer.WriteStartObject();
        FindingJson.WriteFields(writer, finding);
        if (Catalogue.Find(finding.Place.Cause) is { } cause)
        {
            writer.WriteString("confounders", cause.Confounders);
            writer.WriteString("source", cause.Source);
            writer.WriteStartArray("limits");
            foreach (var (limit, value, provenance) in limits.All(cause))
            {
                writer.WriteStartObject();
                writer.WriteString("key", limit.Key);
                writer.WriteNumber("value", value);
                writer.WriteString("from", provenance);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
        }

        writer.WriteEndObject();
    }

    private static void Unit(Utf8JsonWriter writer, UnitSnapshot unit)
    {
        writer.WriteStartObject();
        writer.WriteString("airHandler", unit.AirHandler);
        writer.WriteNumber("daysKnown", unit.DaysKnown);
        writer.WriteRounded("noneOfThese", unit.NoneOfThese, 4);
        writer.WriteStartArray("ranked");
        foreach (var seen in unit.Ranked.Where(f => f.Probability >= LeastProbability || (f.Assessment.Evidence.Count == 0 && f.Assessment.Missing.Count > 0)))
        {
            writer.WriteStartObject();
            writer.WriteString("finding", seen.Assessment.Cause.Id);
            writer.WriteString("cause", seen.Assessment.Words);
            writer.WriteString("component", seen.Assessment.Component);
            writer.WriteString("machine", seen.Assessment.Machine);
            writer.WriteString("sensor", seen.Assessment.Sensor);
            writer.WriteRounded("probability", seen.Probability, 4);
            writer.WriteTime("onset", seen.Onset);
            FindingJson.Write(writer, seen.Assessment.Evidence);
            writer.WriteTexts("missing", seen.Assessment.Missing);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        if (unit.NextCheck is { } next)
        {
            writer.WriteStartObject("nextCheck");
            writer.WriteString("finding", next.Cause.Id);
            FindingJson.WriteCheck(writer, next.Check);
            writer.WriteRounded("bitsPerMinute", next.BitsPerMinute, 4);
            writer.WriteEndObject();
        }

        writer.WriteEndObject();
    }
}
