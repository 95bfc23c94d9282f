using System.Security.Cryptography;
using System.Text;
using UglyToad.PdfPig.Writer;

namespace ClimateGuard.Edges.Board;

/// <summary>A report as PDF, with the font inside it; the same blocks give the same bytes.</summary>
internal static class PdfReport
{
    // A PDF says when it was made; here it is the epoch, as the data say all that matters about time.
    private const string FixedDate = "D:19700101000000Z";

    public static byte[] Write(string title, IReadOnlyList<Block> blocks)
    {
        using var builder = new PdfDocumentBuilder();
        builder.DocumentInformation.Title = title;
        builder.DocumentInformation.Producer = $"ClimateGuard {BoardData.ProgramVersion}";
        builder.DocumentInformation.CreationDate = FixedDate;
        builder.DocumentInformation.ModifiedDate = FixedDate;
        var pages = new PdfPages(builder, Font("DejaVuSansCondensed.ttf"), Font("DejaVuSansCondensed-Bold.ttf"), title);
        foreach (var block in blocks)
        {
            pages.Write(block);
        }

        pages.Finish();
        return WithIdOfContent(builder.Build());
    }

    private static byte[] Font(string name)
    {
        using var stream = typeof(PdfReport).Assembly.GetManifestResourceStream(name)!;
        using var whole = new MemoryStream();
        stream.CopyTo(whole);
        return whole.ToArray();
    }

    // The writer draws a new identity for each file; it becomes the hash of everything before it (ISO 32000, 14.4 leaves the choice).
    private static byte[] WithIdOfContent(byte[] pdf)
    {
        var at = pdf.AsSpan().LastIndexOf("/ID [ <"u8);
        if (at < 0)
        {
            return pdf;
        }

        var hash = Encoding.ASCII.GetBytes(Convert.ToHexString(SHA256.HashData(pdf.AsSpan(0, at)))[..32]);
        var first = at + "/ID [ <"u8.Length;
        hash.CopyTo(pdf.AsSpan(first));
        hash.CopyTo(pdf.AsSpan(first + hash.Length + "><"u8.Length));
        return pdf;
    }
}
