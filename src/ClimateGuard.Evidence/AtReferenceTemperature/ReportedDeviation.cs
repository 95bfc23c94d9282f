namespace ClimateGuard.Evidence;

/// <summary>A deviation as a device reported it; equality is by value.</summary>
/// <param name="Micrometres">Measured minus nominal, in µm.</param>
/// <param name="StandardUncertainty">Of the measurement without temperature, in µm, 0 or more.</param>
/// <param name="AlreadyAtReference">True when another program has already taken it to 20 °C; it is then left as it is.</param>
public sealed record ReportedDeviation(double Micrometres, double StandardUncertainty, bool AlreadyAtReference = false);

/// <summary>A deviation at 20 °C beside what was done to it; equality is by value.</summary>
/// <param name="Reported">What the device said.</param>
/// <param name="CorrectionMicrometres">What was added to it, in µm; null when it is not known.</param>
/// <param name="Micrometres">The deviation at 20 °C, in µm; null when only a range can be given.</param>
/// <param name="StandardUncertainty">Of the deviation at 20 °C, in µm; null when only a range can be given.</param>
/// <param name="Range">The deviation at 20 °C at least and at most, in µm, by the temperature correction alone; infinite when temperatures are missing.</param>
/// <param name="Note">What was done or what is missing, for the line beside the value.</param>
public sealed record DeviationAtReference(
    ReportedDeviation Reported,
    double? CorrectionMicrometres,
    double? Micrometres,
    double? StandardUncertainty,
    Interval Range,
    string Note);
