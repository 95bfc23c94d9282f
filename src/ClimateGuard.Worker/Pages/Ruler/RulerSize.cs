namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>How large a budget ruler is drawn.</summary>
public enum RulerSize
{
    /// <summary>In a table.</summary>
    Small,

    /// <summary>On the floor page, to be read at two metres.</summary>
    Large,
}
