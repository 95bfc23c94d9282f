using System.Globalization;
using System.Text.Json;
using ClimateGuard.Enclosure;

namespace ClimateGuard.Edges.Json;

/// <summary>Zones as rooms as JSON, for HTTP: the one place that names these fields.</summary>
public static class RoomJson
{
    /// <summary>The rooms with their answers.</summary>
    /// <param name="today">The local day; the days before it count.</param>
    /// <param name="rooms">The rooms.</param>
    public static byte[] ToUtf8(DateOnly today, IReadOnlyList<(DescribedRoom Room, RoomAnswers Answers)> rooms) =>
        JsonText.ToUtf8((today, rooms), static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteString("before", value.today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            writer.WriteStartArray("zones");
            foreach (var (room, answers) in value.rooms)
            {
                writer.WriteStartObject();
                writer.WriteString("zone", room.Zone.Id);
                Known(writer, room.Found);
                Answers(writer, room, answers);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        });

    private static void Known(Utf8JsonWriter writer, RoomIdentification? found)
    {
        writer.WriteStartArray("parameters");
        foreach (var interval in found?.Intervals ?? [])
        {
            writer.WriteStartObject();
            writer.WriteString("parameter", JsonNamingPolicy.CamelCase.ConvertName(interval.Parameter.ToString()));
            writer.WriteString("unit", interval.Parameter.Unit());
            writer.WriteRounded("value", interval.Value, 3);
            writer.WriteRounded("low", interval.Low, 3);
            writer.WriteRounded("high", interval.High, 3);
            writer.WriteBoolean("identified", interval.Identified);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteTexts("notIdentified", found?.Words ?? []);
        if (found is null)
        {
            writer.WriteNull("freeRun");
            return;
        }

        writer.WriteStartObject("freeRun");
        writer.WriteNumber("days", found.Validation.Days);
        writer.WriteRounded("inControlK", found.Validation.InControlKelvins, 3);
        writer.WriteRounded("otherwiseK", found.Validation.OtherwiseKelvins, 3);
        writer.WriteBoolean("holds", found.Validation.Holds);
        writer.WriteEndObject();
    }

    private static void Answers(Utf8JsonWriter writer, DescribedRoom room, RoomAnswers answers)
    {
        if (answers.Recovery is { } recovery)
        {
            writer.WriteStartObject("recovery");
            writer.WriteRounded("offK", room.Zone.Band.Value, 3);
            writer.WriteRounded("airMinutes", recovery.Air?.TotalMinutes, 1);
            writer.WriteRounded("massHours", recovery.Mass == TimeSpan.MaxValue ? null : recovery.Mass.TotalHours, 2);
            writer.WriteEndObject();
        }
        else
        {
            writer.WriteNull("recovery");
        }

        Day(writer, "usualDay", answers.UsualDay, answers.MachineOnUsualDay);
        Day(writer, "warmDay", answers.WarmDay, answers.MachineOnWarmDay);
        writer.WriteStartArray("setBacks");
        foreach (var answer in answers.SetBacks) SetBack(writer, answer, room);
        writer.WriteEndArray();
        writer.WriteTexts("notTold", answers.NotTold);
    }

    private static void Day(Utf8JsonWriter writer, string name, DesignDay? day, OneMoreMachine? machine)
    {
        if (day is null)
        {
            writer.WriteNull(name);
            return;
        }

        writer.WriteStartObject(name);
        writer.WriteRounded("mostK", day.MostKelvins, 3);
        writer.WriteRounded("leastK", day.LeastKelvins, 3);
        writer.WriteRounded("atCapacityHours", day.AtCapacity.TotalHours, 2);
        writer.WriteRounded("marginKw", day.LeastMarginKilowatts, 2);
        if (machine is not null)
        {
            writer.WriteStartObject("oneMoreMachine");
            writer.WriteRounded("heatKw", machine.HeatKilowatts, 2);
            writer.WriteRounded("marginLeftKw", machine.MarginLeftKilowatts, 2);
            writer.WriteRounded("warmerK", machine.WarmerKelvins, 3);
            writer.WriteEndObject();
        }

        writer.WriteEndObject();
    }

    private static void SetBack(Utf8JsonWriter writer, SetBackAnswer answer, DescribedRoom room)
    {
        writer.WriteStartObject();
        writer.WriteString("from", answer.SetBack.From.ToString());
        writer.WriteString("until", answer.SetBack.Until.ToString());
        writer.WriteRounded("setpointC", answer.SetBack.Setpoint.Value, 2);
        writer.WriteBoolean("stated", room.Zone.SetBacks.Contains(answer.SetBack));
        writer.WriteString("shiftBegins", answer.ShiftBegins?.ToString("HH:mm", CultureInfo.InvariantCulture));
        writer.WriteRounded("airInBandMinutes", answer.Cost.AirInBand?.TotalMinutes, 0);
        writer.WriteRounded("massSettledMinutes", answer.Cost.MassSettled?.TotalMinutes, 0);
        writer.WriteRounded("hoursLost", answer.Cost.HoursLost, 2);
        writer.WriteBoolean("atMost", answer.AtMost);
        writer.WriteEndObject();
    }
}
