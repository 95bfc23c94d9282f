namespace ClimateGuard.Thermal;

/// <summary>How well the fit foretells later blocks that it has not seen, beside the simplest forecasts.</summary>
/// <remarks>
/// Rolling origin: fitted anew on all before each block, model choice included, and given the air of the block. In-sample agreement is no
/// evidence here: two slow trends always agree (Granger and Newbold 1974, spurious regression; from memory).
/// </remarks>
/// <param name="FitMicrometres">Root mean square error of the fit, in µm.</param>
/// <param name="NoModelMicrometres">The same when the displacement is held to its mean before the block, in µm.</param>
/// <param name="LastReprobeMicrometres">The same when it is held to the last value before the block, as a re-probe does, in µm.</param>
/// <param name="WithoutTemperatureMicrometres">The same for the best explanation that knows no temperature, in µm.</param>
/// <param name="Blocks">How many blocks were held out, one after the other.</param>
/// <param name="BlockLength">The length of each.</param>
/// <param name="BetterThanSimplest">The fit beats the best of these three by the asked-for share.</param>
public sealed record DriftFitValidation(
    double FitMicrometres,
    double NoModelMicrometres,
    double LastReprobeMicrometres,
    double WithoutTemperatureMicrometres,
    int Blocks,
    TimeSpan BlockLength,
    bool BetterThanSimplest);
