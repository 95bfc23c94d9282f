using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.Board;

/// <summary>The board report of one serial in its three forms; the same data give the same bytes.</summary>
public static class SerialReport
{
    /// <summary>As one HTML file that fetches nothing; null when nothing of the serial was inspected.</summary>
    public static byte[]? Html(BoardData data, string serial) => BoardReport.Of(data, serial) is { } blocks ? HtmlReport.Write(Title(serial), blocks) : null;

    /// <summary>As PDF; null when nothing of the serial was inspected.</summary>
    public static byte[]? Pdf(BoardData data, string serial) => BoardReport.Of(data, serial) is { } blocks ? PdfReport.Write(Title(serial), blocks) : null;

    /// <summary>As JSON with every number; null when nothing of the serial was inspected.</summary>
    public static byte[]? Json(BoardData data, string serial)
    {
        ArgumentNullException.ThrowIfNull(data);
        var features = data.Answer.Features.Where(one => one.Serial == serial || one.Inspected.Step.FormerSerial == serial).ToArray();
        if (features.Length == 0)
        {
            return null;
        }

        var parts = features.Select(one => (one.Inspected.Worst.Part, one.Inspected.Feature.Id)).ToHashSet();
        var machines = features.Select(one => one.Inspected.Step.Machine).ToHashSet(StringComparer.Ordinal);
        return EvidenceJson.ToUtf8(data with
        {
            Answer = data.Answer with
            {
                Features = features,
                Groups = [.. data.Answer.Groups.Where(group => parts.Contains((group.Part, group.Feature)))],
                Validity = [.. data.Answer.Validity.Where(validity => machines.Contains(validity.Machine))],
            },
        });
    }

    private static string Title(string serial) => $"Temperature evidence for serial {Printable.Clean(serial, 200)}";
}
