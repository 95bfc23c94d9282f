using System.Text;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>A file of inspection results, QIF 3.0 or CSV; the whole file or nothing.</summary>
public static class InspectionFile
{
    /// <summary>The largest file that is read, in bytes.</summary>
    public const int MostBytes = 64 << 20;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a file.</summary>
    /// <param name="bytes">The whole of it.</param>
    /// <param name="cell">The cell that knows machines, parts and features.</param>
    /// <param name="mapping">How the files of its device are read; null for <c>results.csv</c> and for QIF that names all.</param>
    public static InspectionImport Read(ReadOnlyMemory<byte> bytes, Cell cell, DeviceMapping? mapping = null)
    {
        ArgumentNullException.ThrowIfNull(cell);
        if (bytes.Length > MostBytes)
        {
            return InspectionImport.Refused($"the file has {bytes.Length} bytes; at most {MostBytes} are read: split it");
        }

        if (IsXml(bytes.Span))
        {
            return Looked(QifReader.Read(bytes, cell, mapping));
        }

        try
        {
            return Looked(ResultsFileReader.Parse(Strict.GetString(bytes.Span), cell, mapping));
        }
        catch (DecoderFallbackException broken)
        {
            var line = 1 + bytes.Span[..Math.Clamp(broken.Index, 0, bytes.Length)].Count((byte)'\n');
            return InspectionImport.Refused($"line {line}: the text is not UTF-8; save the file as UTF-8");
        }
    }

    private static bool IsXml(ReadOnlySpan<byte> bytes)
    {
        var start = bytes.StartsWith("\uFEFF"u8) ? bytes[3..] : bytes;
        return start.TrimStart(" \t\r\n"u8) is [(byte)'<', ..];
    }

    // Forgetting the factor 2 is the commonest slip with positions: it shows where a hole has both its vector and its value.
    private static InspectionImport Looked(InspectionImport read)
    {
        InspectionValue[] both = [.. read.Values.Where(value => value is { Feature: PositionFeature, DxMicrometres: not null, DyMicrometres: not null })];
        var radial = both.Count(value =>
        {
            var length = double.Hypot(value.DxMicrometres!.Value, value.DyMicrometres!.Value);
            return length > 1 && Math.Abs(value.DeviationMicrometres - length) < 0.02 * length;
        });
        return radial > both.Length / 2
            ? read with { Notes = [.. read.Notes, $"{radial} of {both.Length} positions equal the length of their vector: they look radial, and 2·|d| is expected; say position: radial in the mapping of the device"] }
            : read;
    }
}
