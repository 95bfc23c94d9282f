using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Writer;

namespace ClimateGuard.Edges.Board;

/// <summary>Lays blocks out on A4 pages, top to bottom; a row, a figure and a heading with its first line stay together.</summary>
internal sealed class PdfPages
{
    private const double Width = 595;
    private const double Height = 842;
    private const double Margin = 47;
    private const double Bottom = 52;
    private const double Inner = Width - (2 * Margin);
    private readonly PdfDocumentBuilder builder;
    private readonly PdfText text;
    private readonly string title;
    private readonly List<PdfPageBuilder> pages = [];
    private PdfPageBuilder page;
    private double y;

    public PdfPages(PdfDocumentBuilder builder, byte[] regular, byte[] bold, string title)
    {
        this.builder = builder;
        this.title = title;
        text = new PdfText(builder.AddTrueTypeFont(regular), builder.AddTrueTypeFont(bold));
        page = NewPage();
    }

    public void Write(Block block)
    {
        switch (block)
        {
            case Heading heading:
                var size = heading.Level switch { 1 => 17.0, 2 => 13.0, _ => 10.5 };
                Need(size + 40);
                y -= heading.Level == 1 ? 4 : 10;
                Lines(heading.Text, size, true);
                y -= 2;
                break;
            case Paragraph paragraph:
                Lines(paragraph.Text, paragraph.Strong ? 12 : 8.5, paragraph.Strong);
                y -= 3;
                break;
            case TableBlock table:
                Table(table);
                break;
            case FigureBlock figure:
                Figure(figure);
                break;
            case FillIn fill:
                Fill(fill);
                break;
        }
    }

    /// <summary>Numbers the pages.</summary>
    public void Finish()
    {
        for (var i = 0; i < pages.Count; i++)
        {
            text.Draw(pages[i], title, Margin, 30, 7, false, Ink.Grey);
            text.Draw(pages[i], FormattableString.Invariant($"{i + 1} of {pages.Count}"), Width - Margin, 30, 7, false, Ink.Grey, Align.Right);
        }
    }

    private PdfPageBuilder NewPage()
    {
        page = builder.AddPage(PageSize.A4);
        pages.Add(page);
        y = Height - Margin;
        return page;
    }

    private void Need(double height)
    {
        if (y - height < Bottom)
        {
            NewPage();
        }
    }

    private void Lines(string words, double size, bool bold)
    {
        foreach (var line in text.Wrapped(page, words, Inner, size, bold))
        {
            Need(size * 1.35);
            y -= size * 1.3;
            text.Draw(page, line, Margin, y, size, bold, Ink.Dark);
        }
    }

    private void Table(TableBlock table)
    {
        const double size = 6.8;
        y -= 3;
        Row(table, table.Head, size, true, repeat: false);
        foreach (var row in table.Rows)
        {
            Row(table, row, size, false, repeat: true);
        }

        y -= 6;
    }

    private void Row(TableBlock table, IReadOnlyList<string> cells, double size, bool bold, bool repeat)
    {
        IReadOnlyList<string>[] wrapped = [.. cells.Select((cell, i) => text.Wrapped(page, cell, (table.Widths[i] * Inner) - 6, size, bold))];
        var height = (wrapped.Max(lines => Math.Max(1, lines.Count)) * size * 1.25) + 4;
        if (y - height < Bottom)
        {
            NewPage();
            if (repeat)
            {
                Row(table, table.Head, size, true, repeat: false);
            }
        }

        var x = Margin;
        for (var i = 0; i < cells.Count; i++)
        {
            for (var line = 0; line < wrapped[i].Count; line++)
            {
                text.Draw(page, wrapped[i][line], x + 3, y - 1 - ((line + 1) * size * 1.2), size, bold, Ink.Dark);
            }

            x += table.Widths[i] * Inner;
        }

        y -= height;
        PdfInk.Stroke(page, bold ? Ink.Grey : Ink.Light);
        page.DrawLine(new PdfPoint(Margin, y), new PdfPoint(Margin + (table.Widths.Sum() * Inner), y), 0.6);
    }

    private void Figure(FigureBlock figure)
    {
        Need(figure.Drawing.Height + 28);
        y -= 4;
        var (left, top) = (Margin, y);
        foreach (var shape in figure.Drawing.Shapes)
        {
            Draw(shape, left, top);
        }

        y -= figure.Drawing.Height + 2;
        foreach (var line in text.Wrapped(page, figure.Caption, Inner, 7.5, false))
        {
            y -= 9.5;
            text.Draw(page, line, Margin, y, 7.5, false, Ink.Grey);
        }

        y -= 6;
    }

    private void Draw(Shape shape, double left, double top)
    {
        PdfPoint At(double dx, double dy) => new(Math.Round(left + dx, 2), Math.Round(top - dy, 2));
        switch (shape)
        {
            case LineShape line:
                PdfInk.Stroke(page, line.Ink);
                page.DrawLine(At(line.X1, line.Y1), At(line.X2, line.Y2), line.Thickness);
                break;
            case DotShape dot:
                PdfInk.Both(page, dot.Ink);
                page.DrawCircle(At(dot.X, dot.Y), dot.Radius * 2, 0.8, dot.Filled);
                break;
            case BarShape bar:
                PdfInk.Both(page, bar.Ink);
                page.DrawRectangle(At(bar.X, bar.Y + bar.Height), Math.Round(bar.Width, 2), bar.Height, 0.4, true);
                break;
            case TextShape label:
                text.Draw(page, label.Text, left + label.X, top - label.Y, label.Size, false, label.Ink, label.Align);
                break;
        }
    }

    private void Fill(FillIn fill)
    {
        var height = 12 + (fill.Lines * 16);
        Need(height + 6);
        y -= height;
        PdfInk.Stroke(page, Ink.Grey);
        page.DrawRectangle(new PdfPoint(Margin, y), Inner, height, 0.6);
        text.Draw(page, fill.Label, Margin + 4, y + height - 10, 7.5, false, Ink.Grey);
        y -= 6;
    }
}
