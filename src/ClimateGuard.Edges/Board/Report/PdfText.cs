using System.Globalization;
using System.Text;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Writer;

namespace ClimateGuard.Edges.Board;

/// <summary>Text on pages: measured, broken into lines, drawn; a character that the font has not becomes its code, never a blank.</summary>
internal sealed class PdfText(PdfDocumentBuilder.AddedFont regular, PdfDocumentBuilder.AddedFont bold)
{
    private readonly Dictionary<(char Character, bool Bold), double> widths = [];

    public void Draw(PdfPageBuilder page, string words, double x, double y, double size, bool heavy, Ink ink, Align align = Align.Left)
    {
        var shown = Shown(page, words, heavy);
        if (shown.Length == 0)
        {
            return;
        }

        var (r, g, b) = Inks.Rgb(ink);
        page.SetTextAndFillColor(r, g, b);
        var left = align switch { Align.Left => x, Align.Middle => x - (Width(page, shown, size, heavy) / 2), _ => x - Width(page, shown, size, heavy) };
        page.AddText(shown, size, new PdfPoint(Math.Round(left, 2), Math.Round(y, 2)), heavy ? bold : regular);
    }

    /// <summary>The lines of a text; words that are too long for a line are broken.</summary>
    public IReadOnlyList<string> Wrapped(PdfPageBuilder page, string words, double width, double size, bool heavy)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var piece in Shown(page, words, heavy).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Pieces(page, word, width, size, heavy)))
        {
            var longer = line.Length == 0 ? piece : $"{line} {piece}";
            if (line.Length > 0 && Width(page, longer, size, heavy) > width)
            {
                lines.Add(line);
                longer = piece;
            }

            line = longer;
        }

        return line.Length > 0 ? [.. lines, line] : lines;
    }

    private IEnumerable<string> Pieces(PdfPageBuilder page, string word, double width, double size, bool heavy)
    {
        var piece = new StringBuilder();
        var used = 0.0;
        foreach (var character in word)
        {
            var one = Width(page, character.ToString(), size, heavy);
            if (used + one > width && piece.Length > 0)
            {
                yield return piece.ToString();
                piece.Clear();
                used = 0;
            }

            piece.Append(character);
            used += one;
        }

        yield return piece.ToString();
    }

    private double Width(PdfPageBuilder page, string words, double size, bool heavy) => words.Sum(character => WidthOf(page, character, heavy)) * size;

    private string Shown(PdfPageBuilder page, string words, bool heavy)
    {
        var shown = new StringBuilder(words.Length);
        foreach (var character in Json.Printable.Clean(words, 20_000))
        {
            shown.Append(double.IsNaN(WidthOf(page, character, heavy)) ? $"[U+{(int)character:X4}]" : character.ToString(CultureInfo.InvariantCulture));
        }

        return shown.ToString();
    }

    // Of one character at size 1; NaN where the font has none.
    private double WidthOf(PdfPageBuilder page, char character, bool heavy)
    {
        if (!widths.TryGetValue((character, heavy), out var width))
        {
            const double size = 1000;
            try
            {
                var letters = page.MeasureText(character.ToString(), size, new PdfPoint(0, 0), heavy ? bold : regular);
                width = letters.Sum(letter => letter.EndBaseLine.X - letter.StartBaseLine.X) / size;
            }
            catch (InvalidOperationException)
            {
                width = double.NaN;
            }

            widths.Add((character, heavy), width);
        }

        return width;
    }
}

/// <summary>Colours on pages.</summary>
internal static class PdfInk
{
    public static void Stroke(PdfPageBuilder page, Ink ink)
    {
        var (r, g, b) = Inks.Rgb(ink);
        page.SetStrokeColor(r, g, b);
    }

    public static void Both(PdfPageBuilder page, Ink ink)
    {
        var (r, g, b) = Inks.Rgb(ink);
        page.SetStrokeColor(r, g, b);
        page.SetTextAndFillColor(r, g, b);
    }
}
