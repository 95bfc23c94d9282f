namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>The rows of a ruler from top to bottom, in pixels.</summary>
internal sealed record RulerRows
{
    public required double MarkTop { get; init; }

    public required double BarTop { get; init; }

    public required double Bar { get; init; }

    public required double TrailTop { get; init; }

    public required double Trail { get; init; }

    public required double Axis { get; init; }

    public required double Tick { get; init; }

    public required double TickText { get; init; }

    public required double Height { get; init; }

    public static RulerRows Large { get; } = new()
    {
        MarkTop = 22, BarTop = 32, Bar = 30, TrailTop = 68, Trail = 28, Axis = 106, Tick = 7, TickText = 130, Height = 134,
    };

    public static RulerRows Small { get; } = new()
    {
        MarkTop = 16, BarTop = 22, Bar = 14, TrailTop = 40, Trail = 12, Axis = 56, Tick = 4, TickText = 73, Height = 76,
    };
}
