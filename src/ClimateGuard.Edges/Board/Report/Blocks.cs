namespace ClimateGuard.Edges.Board;

/// <summary>A piece of a report, the same for every form it is written in. A closed set.</summary>
internal abstract record Block;

/// <summary>A heading; 1 is the title.</summary>
internal sealed record Heading(int Level, string Text) : Block;

/// <summary>A paragraph.</summary>
internal sealed record Paragraph(string Text, bool Strong = false) : Block;

/// <summary>A table; widths are shares of the page.</summary>
internal sealed record TableBlock(IReadOnlyList<string> Head, IReadOnlyList<IReadOnlyList<string>> Rows, IReadOnlyList<double> Widths) : Block;

/// <summary>A figure with what it shows.</summary>
internal sealed record FigureBlock(Drawing Drawing, string Caption) : Block;

/// <summary>Empty lines for people to fill in.</summary>
internal sealed record FillIn(string Label, int Lines) : Block;

/// <summary>Lines, dots, bars and texts in a box; x to the right, y downwards, in points.</summary>
internal sealed record Drawing(double Width, double Height, IReadOnlyList<Shape> Shapes);

/// <summary>A shape. A closed set.</summary>
internal abstract record Shape(Ink Ink);

internal sealed record LineShape(double X1, double Y1, double X2, double Y2, Ink Ink, double Thickness = 1) : Shape(Ink);

internal sealed record DotShape(double X, double Y, double Radius, Ink Ink, bool Filled = true) : Shape(Ink);

internal sealed record BarShape(double X, double Y, double Width, double Height, Ink Ink) : Shape(Ink);

/// <summary>A text; its place is the left, the middle or the right end of its base line.</summary>
internal sealed record TextShape(double X, double Y, string Text, Ink Ink = Ink.Dark, Align Align = Align.Left, double Size = 8) : Shape(Ink);

internal enum Align
{
    Left,
    Middle,
    Right,
}

/// <summary>The colours of a report; each is also told apart by its shape or its label, as reports are printed in grey.</summary>
internal enum Ink
{
    Dark,
    Grey,
    Light,
    Measured,
    Predicted,
    Limit,
    Coolant,
}

internal static class Inks
{
    public static (byte R, byte G, byte B) Rgb(Ink ink) => ink switch
    {
        Ink.Dark => (32, 36, 40),
        Ink.Grey => (120, 126, 132),
        Ink.Light => (218, 222, 226),
        Ink.Measured => (0, 92, 170),
        Ink.Predicted => (200, 96, 0),
        Ink.Limit => (176, 24, 32),
        _ => (0, 130, 130),
    };
}
