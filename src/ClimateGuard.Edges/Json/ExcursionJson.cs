using System.Text.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>An excursion as JSON.</summary>
public static class ExcursionJson
{
    /// <summary>The excursion as one UTF-8 JSON object.</summary>
    public static byte[] ToUtf8(ExcursionTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        return JsonText.ToUtf8(told, static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteTime("time", value.Time);
            WriteFields(writer, value.Excursion);
            writer.WriteEndObject();
        });
    }

    /// <summary>Writes the fields of an excursion into an object that is open; an end that is null says that it lasts.</summary>
    public static void WriteFields(Utf8JsonWriter writer, ZoneExcursion excursion)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(excursion);
        writer.WriteString("zone", excursion.Zone);
        writer.WriteTime("begin", excursion.Begin);
        writer.WriteTime("end", excursion.End);
        writer.WriteRounded("peakK", excursion.PeakKelvins, 2);
        writer.WriteRounded("degreeMinutes", excursion.DegreeMinutes, 1);
        writer.WriteArray("jobs", excursion.Jobs, static (w, job) =>
        {
            w.WriteStartObject();
            w.WriteString("machine", job.Machine);
            w.WriteString("serial", job.Serial);
            w.WriteString("part", job.Part);
            w.WriteString("operation", job.Operation);
            w.WriteEndObject();
        });
    }
}
