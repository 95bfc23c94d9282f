using System.Globalization;
using System.Net;
using System.Text;

namespace ClimateGuard.Edges.Board;

/// <summary>A report as one HTML file: nothing is fetched, everything from outside is escaped, figures are SVG.</summary>
internal static class HtmlReport
{
    private const string Style =
        "body{font:14px/1.45 'DejaVu Sans Condensed',Arial,sans-serif;color:#202428;max-width:900px;margin:24px auto;padding:0 16px}h1{font-size:24px}h2{font-size:18px;border-top:2px solid #202428;padding-top:12px;margin-top:28px}h3{font-size:15px;margin:18px 0 6px}" +
        "table{border-collapse:collapse;width:100%;margin:8px 0;font-size:12px}th,td{border:1px solid #dadee2;padding:3px 6px;text-align:left;vertical-align:top;overflow-wrap:break-word}th{background:#f1f3f5}.strong{font-size:17px;font-weight:bold}" +
        "figure{margin:12px 0}figcaption{color:#555c63;font-size:12px}.fill{border:1px solid #787e84;margin:8px 0;padding:4px 8px;color:#555c63}svg{max-width:100%;height:auto}@media print{h2,h3{break-after:avoid}figure,tr{break-inside:avoid}}";

    public static byte[] Write(string title, IReadOnlyList<Block> blocks)
    {
        var html = new StringBuilder();
        html.Append("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"><title>")
            .Append(Safe(title)).Append("</title><style>").Append(Style).Append("</style></head><body>\n");
        foreach (var block in blocks)
        {
            Write(html, block);
        }

        html.Append("</body></html>\n");
        return Encoding.UTF8.GetBytes(html.ToString());
    }

    private static void Write(StringBuilder html, Block block)
    {
        switch (block)
        {
            case Heading heading:
                html.Append(CultureInfo.InvariantCulture, $"<h{heading.Level}>{Safe(heading.Text)}</h{heading.Level}>\n");
                break;
            case Paragraph paragraph:
                html.Append(paragraph.Strong ? "<p class=\"strong\">" : "<p>").Append(Safe(paragraph.Text)).Append("</p>\n");
                break;
            case TableBlock table:
                Table(html, table);
                break;
            case FigureBlock figure:
                html.Append("<figure>").Append(Svg(figure.Drawing, figure.Caption)).Append("<figcaption>").Append(Safe(figure.Caption)).Append("</figcaption></figure>\n");
                break;
            case FillIn fill:
                html.Append(CultureInfo.InvariantCulture, $"<div class=\"fill\" style=\"min-height:{fill.Lines * 24}px\">{Safe(fill.Label)}</div>\n");
                break;
        }
    }

    private static void Table(StringBuilder html, TableBlock table)
    {
        html.Append("<table><thead><tr>");
        foreach (var head in table.Head)
        {
            html.Append("<th>").Append(Safe(head)).Append("</th>");
        }

        html.Append("</tr></thead><tbody>\n");
        foreach (var row in table.Rows)
        {
            html.Append("<tr>");
            foreach (var cell in row)
            {
                html.Append("<td>").Append(Safe(cell)).Append("</td>");
            }

            html.Append("</tr>\n");
        }

        html.Append("</tbody></table>\n");
    }

    internal static string Svg(Drawing drawing, string caption)
    {
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"{Safe(caption)}\" width=\"{drawing.Width * 1.5:0}\" viewBox=\"0 0 {drawing.Width:0.##} {drawing.Height:0.##}\">");
        foreach (var shape in drawing.Shapes)
        {
            var (r, g, b) = Inks.Rgb(shape.Ink);
            var ink = FormattableString.Invariant($"rgb({r},{g},{b})");
            svg.Append(shape switch
            {
                LineShape line => FormattableString.Invariant($"<line x1=\"{line.X1:0.##}\" y1=\"{line.Y1:0.##}\" x2=\"{line.X2:0.##}\" y2=\"{line.Y2:0.##}\" stroke=\"{ink}\" stroke-width=\"{line.Thickness:0.##}\"/>"),
                DotShape dot => FormattableString.Invariant($"<circle cx=\"{dot.X:0.##}\" cy=\"{dot.Y:0.##}\" r=\"{dot.Radius:0.##}\" fill=\"{(dot.Filled ? ink : "none")}\" stroke=\"{ink}\"/>"),
                BarShape bar => FormattableString.Invariant($"<rect x=\"{bar.X:0.##}\" y=\"{bar.Y:0.##}\" width=\"{bar.Width:0.##}\" height=\"{bar.Height:0.##}\" fill=\"{ink}\"/>"),
                TextShape text => FormattableString.Invariant($"<text x=\"{text.X:0.##}\" y=\"{text.Y:0.##}\" font-size=\"{text.Size:0.#}\" fill=\"{ink}\" text-anchor=\"{Anchor(text.Align)}\">{Safe(text.Text)}</text>"),
                _ => "",
            });
        }

        return svg.Append("</svg>").ToString();
    }

    private static string Anchor(Align align) => align switch
    {
        Align.Left => "start",
        Align.Middle => "middle",
        _ => "end",
    };

    private static string Safe(string text) => WebUtility.HtmlEncode(Json.Printable.Clean(text, 20_000));
}
