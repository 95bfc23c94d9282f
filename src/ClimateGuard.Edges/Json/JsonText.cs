using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace ClimateGuard.Edges.Json;

/// <summary>How we write JSON: compact, µ and ° readable, numbers rounded to what they mean, null for what is not known.</summary>
internal static class JsonText
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One JSON text as UTF-8.</summary>
    internal static byte[] ToUtf8<T>(T value, Action<Utf8JsonWriter, T> write)
    {
        var buffer = new ArrayBufferWriter<byte>(512);
        using (var writer = new Utf8JsonWriter(buffer, Options))
        {
            write(writer, value);
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>A number rounded to so many digits; null when absent or not finite, as JSON knows neither NaN nor infinity.</summary>
    internal static void WriteRounded(this Utf8JsonWriter writer, string name, double? value, int digits)
    {
        if (value is not { } number || !double.IsFinite(number))
        {
            writer.WriteNull(name);
            return;
        }

        // Adding zero turns a rounded -0 into 0.
        writer.WriteNumber(name, Math.Round(number, digits, MidpointRounding.AwayFromZero) + 0.0);
    }

    /// <summary>A time as RFC 3339 in UTC, or null.</summary>
    internal static void WriteTime(this Utf8JsonWriter writer, string name, DateTimeOffset? time)
    {
        if (time is { } known)
        {
            writer.WriteString(name, Rfc3339.Text(known));
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    /// <summary>An array, each item as it is written.</summary>
    internal static void WriteArray<T>(this Utf8JsonWriter writer, string name, IEnumerable<T> items, Action<Utf8JsonWriter, T> write)
    {
        writer.WriteStartArray(name);
        foreach (var item in items)
        {
            write(writer, item);
        }

        writer.WriteEndArray();
    }

    /// <summary>An array of texts.</summary>
    internal static void WriteTexts(this Utf8JsonWriter writer, string name, IEnumerable<string> texts) =>
        writer.WriteArray(name, texts, static (w, text) => w.WriteStringValue(text));
}
