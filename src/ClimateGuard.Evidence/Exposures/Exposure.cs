namespace ClimateGuard.Evidence;

/// <summary>What one feature of one part was exposed to during its cut, with the naive exposure beside it.</summary>
/// <remarks>Means and extremes are over the known samples of the window; NaN where there is none. Equality by members; immutable.</remarks>
public sealed record Exposure
{
    /// <summary>Begin of the window.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>End of the window.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Share of the window with valid inputs, in [0, 1].</summary>
    public required double KnownShare { get; init; }

    /// <summary>Mean mismatch of part and scale, in µm/m.</summary>
    public double MeanEps { get; init; } = double.NaN;

    /// <summary>Last minus first mismatch, in µm/m: what a trend from hole to hole would show.</summary>
    public double EpsChange { get; init; } = double.NaN;

    /// <summary>Mean drift since the datum was probed, in µm.</summary>
    public AxisDrift MeanDrift { get; init; }

    /// <summary>The fastest drift of any axis, in µm/min.</summary>
    public double MostDriftRate { get; init; } = double.NaN;

    /// <summary>Mean of part minus air, in K.</summary>
    public double PartMinusAir { get; init; } = double.NaN;

    /// <summary>Largest of part minus air by size, in K.</summary>
    public double MostPartMinusAir { get; init; } = double.NaN;

    /// <summary>Mean of part minus scale, in K.</summary>
    public double PartMinusScale { get; init; } = double.NaN;

    /// <summary>Mean of part minus coolant while it ran, in K.</summary>
    public double PartMinusCoolant { get; init; } = double.NaN;

    /// <summary>Time in the enclosure before the cut, in time constants of the part in air; NaN when the entry is not known.</summary>
    public double SoakRatio { get; init; } = double.NaN;

    /// <summary>Mean load of the spindle, 0 to 1.</summary>
    public double SpindleLoad { get; init; } = double.NaN;

    /// <summary>Mean of high minus low air, in K.</summary>
    public double GradientKelvins { get; init; } = double.NaN;

    /// <summary>Σ max(0, |effect| − budget)·Δt, in µm·min: for ranking only.</summary>
    public double DoseMicrometreMinutes { get; init; }

    /// <summary>The naive exposure: mean air − 20, in K, of the same window.</summary>
    public double NaiveAirKelvins { get; init; } = double.NaN;

    /// <summary>Works out the exposure of a feature.</summary>
    /// <param name="cut">The cut with its samples.</param>
    /// <param name="feature">Id of the feature.</param>
    /// <param name="budgetMicrometres">Its budget, in µm.</param>
    /// <returns>The exposure, or null when there is no sample of the window at all.</returns>
    public static Exposure? Of(CutExposure cut, string feature, double budgetMicrometres)
    {
        ArgumentNullException.ThrowIfNull(cut);
        var window = cut.Of(feature);
        if (window.Count == 0) return null;
        ExposureSample[] known = [.. window.Where(sample => sample.Known)];
        var bare = new Exposure { From = window[0].Time, To = window[^1].Time, KnownShare = (double)known.Length / window.Count };
        if (known.Length == 0) return bare;
        return bare with
        {
            MeanEps = Mean(known, sample => sample.EpsMicrometresPerMetre),
            EpsChange = known[^1].EpsMicrometresPerMetre - known[0].EpsMicrometresPerMetre,
            MeanDrift = new AxisDrift(Mean(known, sample => sample.Drift.X), Mean(known, sample => sample.Drift.Y), Mean(known, sample => sample.Drift.Z)),
            MostDriftRate = MostRate(known),
            PartMinusAir = Mean(known, sample => sample.PartCelsius - sample.AirCelsius),
            MostPartMinusAir = known.Select(sample => sample.PartCelsius - sample.AirCelsius).MaxBy(Math.Abs),
            PartMinusScale = Mean(known, sample => sample.PartCelsius - sample.ScaleCelsius),
            PartMinusCoolant = Mean(known, sample => sample.PartCelsius - sample.CoolantCelsius),
            SoakRatio = Soak(cut, window[0].Time),
            SpindleLoad = Mean(known, sample => sample.SpindleLoad),
            GradientKelvins = Mean(known, sample => sample.GradientKelvins),
            DoseMicrometreMinutes = Dose(known, cut.IndexOf(feature), budgetMicrometres),
            NaiveAirKelvins = Mean(known, sample => sample.AirCelsius) - 20,
        };
    }

    private static double Mean(ExposureSample[] samples, Func<ExposureSample, double> of)
    {
        double[] known = [.. samples.Select(of).Where(double.IsFinite)];
        return known.Length > 0 ? known.Average() : double.NaN;
    }

    private static double MostRate(ExposureSample[] samples)
    {
        var most = double.NaN;
        for (var i = 1; i < samples.Length; i++)
        {
            // Below half a minute the last digits of two computed drifts would make a rate of their own.
            if (Minutes(samples, i) is not (>= 0.5 and <= 5)) continue;
            double Rate(double now, double before) => Math.Abs(now - before) / Minutes(samples, i);
            var (now, before) = (samples[i].Drift, samples[i - 1].Drift);
            var rate = Math.Max(Rate(now.X, before.X), Math.Max(Rate(now.Y, before.Y), Rate(now.Z, before.Z)));
            most = double.IsNaN(most) ? rate : Math.Max(most, rate);
        }

        return most;
    }

    private static double Dose(ExposureSample[] samples, int feature, double budget)
    {
        var dose = 0.0;
        for (var i = 1; i < samples.Length && feature >= 0; i++)
        {
            dose += Math.Max(0, Math.Abs(samples[i].Effects[feature].EffectMicrometres) - budget) * Math.Min(5, Minutes(samples, i));
        }

        return dose;
    }

    // Lumped: τ = ρ·c·(V/A)/h (Incropera, Fundamentals of Heat and Mass Transfer, lumped capacitance).
    private static double Soak(CutExposure cut, DateTimeOffset start)
    {
        if (cut.Step.EnteredCell is not { } entered) return double.NaN;
        var seconds = cut.Part.Material.VolumetricHeatJoulesPerCubicMetreKelvin * cut.Part.VolumeToAreaMillimetres * 1e-3 / cut.Part.HeatTransfer.Air;
        return (start - entered).TotalSeconds / seconds;
    }

    private static double Minutes(ExposureSample[] samples, int i) => (samples[i].Time - samples[i - 1].Time).TotalMinutes;
}
