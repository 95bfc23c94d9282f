namespace ClimateGuard.Enclosure;

/// <summary>What a direct-expansion coil does while its compressor runs, against other days.</summary>
internal static class Compressor
{
    private const int Settle = 5;

    /// <summary>Pull over usual pull; how much more the pull falls per kelvin outdoors than usual; minutes running.</summary>
    public static (double Share, double ExtraSlope, int Minutes) Share(HandlerCase known)
    {
        var pulls = Pulls(known.Signals);
        double Level(HandlerSignals s) => Robust.Median(Pulls(s).Select(p => p.Pull));
        var usual = known.Baseline.Usually("compressor", Level);
        known.Number("compressor", Level);
        var slope = Slope(known.Signals);
        known.Number("compressor/outdoor", Slope);
        var usualSlope = known.Baseline.Usually("compressor/outdoor", Slope);
        return (usual.Learned ? known.Number("compressor", Level) / usual.Median : double.NaN,
            slope - (double.IsNaN(usualSlope.Median) ? 0 : usualSlope.Median), pulls.Count);
    }

    /// <summary>A weak compressor explains a warm room.</summary>
    public static void Against(HandlerCase known, List<Evidence> evidence)
    {
        if (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion && Share(known).Share < 0.85)
            evidence.Add(new("the coil is weaker than usual while the compressor runs, which explains it", -5, "compressor weak"));
    }

    private static List<(double Pull, double Outdoor)> Pulls(HandlerSignals signals)
    {
        var found = new List<(double, double)>();
        if (signals is not { Supply: { } supply, Entering: { } entering } || (signals.Of("compressor") ?? signals.Cooling) is not { } running) return found;
        var held = 0;
        for (var minute = 0; minute < supply.Length; minute++)
        {
            held = running[minute] >= 0.95 && signals.FanOn[minute] ? held + 1 : 0;
            if (held > Settle && !double.IsNaN(supply[minute]) && !double.IsNaN(entering[minute]))
                found.Add((entering[minute] - supply[minute], signals.Outdoor is { } o ? o[minute] : double.NaN));
        }

        return found;
    }

    // Loss of pull per kelvin outdoors; NaN when the outdoor air moved by less than 4 K.
    private static double Slope(HandlerSignals signals)
    {
        var pulls = Pulls(signals).Where(p => !double.IsNaN(p.Outdoor)).ToList();
        if (pulls.Count < 60 || pulls.Max(p => p.Outdoor) - pulls.Min(p => p.Outdoor) < 4) return double.NaN;
        double x = pulls.Average(p => p.Outdoor), y = pulls.Average(p => p.Pull);
        return -pulls.Sum(p => (p.Outdoor - x) * (p.Pull - y)) / pulls.Sum(p => (p.Outdoor - x) * (p.Outdoor - x));
    }
}
