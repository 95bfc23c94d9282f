namespace ClimateGuard.Evidence;

/// <summary>Which departures from "no effect" a test counts.</summary>
public enum Alternative
{
    /// <summary>Either direction.</summary>
    TwoSided,

    /// <summary>Only smaller than expected without effect.</summary>
    Less,

    /// <summary>Only larger than expected without effect.</summary>
    Greater,
}
