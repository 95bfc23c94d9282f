namespace ClimateGuard.Enclosure;

/// <summary>A coil seen from the rules: both coils are judged by the same logic with the sign turned.</summary>
internal sealed record CoilSide(string Component, string Noun, string Does, string Other)
{
    public static CoilSide Cooling { get; } = new("cooling coil valve", "cooling valve", "colder", "heating");

    public static CoilSide Heating { get; } = new("heating coil valve", "heating valve", "warmer", "cooling");

    public static IReadOnlyList<CoilSide> Both { get; } = [Cooling, Heating];

    private bool IsCooling => Component == Cooling.Component;

    public CoilSide OtherSide => IsCooling ? Heating : Cooling;

    public double[]? Command(HandlerSignals signals) => IsCooling ? signals.Cooling : signals.Heating;

    public double Command(CoilBlock block) => IsCooling ? block.Cooling : block.Heating;

    public double OtherCommand(CoilBlock block) => IsCooling ? block.Heating : block.Cooling;

    /// <summary>How much further the coil moves the air than the fan alone explains, in K; positive in the sense of the coil.</summary>
    public double Pull(CoilBlock block, HandlerBaseline baseline)
    {
        var (low, high, _) = baseline.FanRise(block.FanSpeed);
        return IsCooling ? low - block.Rise : block.Rise - high;
    }

    public double Reach(HandlerBaseline baseline) => IsCooling ? baseline.CoolingReach : baseline.HeatingReach;

    // Water of 6 to 8 °C cannot cool air of 14 °C by much, and hot water cannot heat hot air (common practice, no source).
    public bool CanAct(CoilBlock block) => IsCooling ? block.Entering > 14 : block.Entering < 30;
}
