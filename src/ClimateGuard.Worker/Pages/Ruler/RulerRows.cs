namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>The rows of a ruler from top to bottom, in pixels.</summary>
internal sealed record RulerRows
{
    public required double MarkTop { get; init; }

    public required double BarTop { get; init; }

    public required double Bar { get; init; }

    public required double Whisker { get; init; }

    public required double Cap { get; init; }

    public required double TrailTop { get; init; }

    public required double Trail { get; init; }

    public required double Axis { get; init; }

    public required double Tick { get; init; }

    public required double TickText { get; init; }

    public required double Height { get; init; }

    public static RulerRows Large { get; } = new()
    {
        MarkTop = 20, BarTop = 28, Bar = 28, Whisker = 66, Cap = 6, TrailTop = 76, Trail = 20, Axis = 103, Tick = 7, TickText = 126, Height = 130,
    };

    public static RulerRows Small { get; } = new()
    {
        MarkTop = 16, BarTop = 21, Bar = 14, Whisker = 40, Cap = 3.5, TrailTop = 45, Trail = 9, Axis = 58, Tick = 4, TickText = 75, Height = 78,
    };
}
