namespace ClimateGuard.Simulator;

/// <summary>Something a script does to the direct-expansion stage of an air handler.</summary>
/// <param name="AirHandler">Id of the air handler.</param>
public abstract record CompressorAction(string AirHandler) : AirHandlerAction(AirHandler)
{
    internal sealed override void Apply(AirHandlerUnit unit) =>
        Apply(unit.Compressor ?? throw new ArgumentException($"Air handler '{AirHandler}' has chilled water and no compressor."));

    internal abstract void Apply(CompressorStage stage);
}

/// <summary>The low-pressure switch cuts the compressor out after so long; zero is healthy.</summary>
public sealed record CutOutCompressor(string AirHandler, TimeSpan After) : CompressorAction(AirHandler)
{
    internal override void Apply(CompressorStage stage) => stage.CutsOutAfter = After;
}

/// <summary>Only so much refrigerant is left; 1 is the right charge.</summary>
public sealed record LoseRefrigerant(string AirHandler, double ChargeShare) : CompressorAction(AirHandler)
{
    internal override void Apply(CompressorStage stage) => stage.ChargeShare = Math.Clamp(ChargeShare, 0, 1);
}

/// <summary>The condenser is dirty: so much capacity is lost at 40 °C outdoors; 0 is clean.</summary>
public sealed record FoulCondenser(string AirHandler, double LostAtForty) : CompressorAction(AirHandler)
{
    internal override void Apply(CompressorStage stage) => stage.CondenserFouling = Math.Clamp(LostAtForty, 0, 1);
}

/// <summary>Ice grows on the coil while it runs, so much of it per hour; 0 is healthy.</summary>
public sealed record IceCoil(string AirHandler, double SharePerHour) : CompressorAction(AirHandler)
{
    internal override void Apply(CompressorStage stage) => stage.IcePerHour = SharePerHour;
}
