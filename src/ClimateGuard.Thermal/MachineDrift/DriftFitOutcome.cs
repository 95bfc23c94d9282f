namespace ClimateGuard.Thermal;

/// <summary>What a drift test has shown.</summary>
public enum DriftFitOutcome
{
    /// <summary>A fast and a slow mode.</summary>
    TwoModes,

    /// <summary>One mode, and the record would have shown another.</summary>
    OneMode,

    /// <summary>A slow mode may be there, but this record cannot show it; a fast mode may have been fitted.</summary>
    SlowModeNotIdentified,

    /// <summary>The air moved enough, but the displacement does not follow it.</summary>
    NoTemperatureResponse,

    /// <summary>The air moved too little to show anything.</summary>
    NotIdentified,
}
