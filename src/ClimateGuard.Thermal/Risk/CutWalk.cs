using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>One path through a cut: what it drew at the begin, and where it is.</summary>
internal sealed class CutWalk
{
    private readonly ThermalModel model;
    private readonly CutAhead cut;
    private readonly TimeSpan step;
    private readonly double[] values;
    private readonly double[] normals;
    private readonly bool hasTerms;
    private readonly double airKeep;
    private readonly double airKick;
    private double airDeparture;
    private double partGain;
    private double scaleGain;
    private double termDeviations;
    private Displacement driftAtStart;
    private Medium medium;

    public CutWalk(ThermalModel model, CutAhead cut, TimeSpan step)
    {
        this.model = model;
        this.cut = cut;
        this.step = step;
        hasTerms = model.Effects.Any(effect => effect.Terms.Count > 0);
        values = new double[model.Layout.Count];
        normals = new double[model.Layout.Count];
        airKeep = Math.Exp(-(step / model.Noise.AirForecastMemory));
        airKick = cut.AirSpread(model.Noise) * Math.Sqrt(1 - (airKeep * airKeep));
    }

    public void Begin(CutStart start, Random random)
    {
        start.Draw(values, normals, random);
        medium = start.Medium;
        airDeparture = 0;
        var first = model.Effects[0];
        partGain = first.PartGain == 0 ? 0 : first.PartGain + (first.UPartAlpha * Normal.Next(random));
        scaleGain = first.ScaleGain == 0 ? 0 : first.ScaleGain + (first.UScaleAlpha * Normal.Next(random));
        termDeviations = hasTerms ? Normal.Next(random) : 0;
        driftAtStart = Drift();
    }

    public void Move(int stepIndex, Random random)
    {
        var around = cut.At((stepIndex + 0.5) * step.TotalMinutes, model.Noise);
        Enter(around.Medium);
        airDeparture = (airKeep * airDeparture) + (airKick * Normal.Next(random));
        model.Steps.Walk(values, around with { AirCelsius = around.AirCelsius + airDeparture }, step.TotalSeconds, random);
    }

    public bool Exceeds(int feature)
    {
        var effect = model.Effects[feature];
        var part = Part();
        var eps = (scaleGain * (values[StateLayout.Scale] - model.ReferenceCelsius)) - (partGain * (part - model.ReferenceCelsius));
        var drift = Drift();
        if (effect.Geometry.DriftCountsFromCutStart)
        {
            drift = new(drift.X - driftAtStart.X, drift.Y - driftAtStart.Y, drift.Z - driftAtStart.Z);
        }

        var reference = model.ReferenceCelsius;
        var terms = effect.Terms.Count == 0
            ? default
            : effect.TermsAt(part - reference, values[StateLayout.Scale] - reference, values[StateLayout.Fixture] - reference, termDeviations);
        return Math.Abs(effect.EffectAt(eps, drift, terms)) > effect.BudgetMicrometres;
    }

    private double Part()
    {
        var pair = model.Response![medium];
        return (pair.FirstWeight * values[StateLayout.PartFirst]) + (pair.SecondWeight * values[StateLayout.PartSecond]);
    }

    /// <summary>In another medium both nodes of the part start again from its mean.</summary>
    private void Enter(Medium next)
    {
        if (next != medium)
        {
            values[StateLayout.PartFirst] = values[StateLayout.PartSecond] = Part();
            medium = next;
        }
    }

    private Displacement Drift()
    {
        Span<double> drift = stackalloc double[3];
        for (var axis = Axis.X; axis <= Axis.Z; axis++)
        {
            drift[(int)axis] = -values[model.Layout.Reference(axis)];
            var moves = model.Layout.Moves(axis);
            for (var i = 0; i < moves.Length; i++)
            {
                drift[(int)axis] += moves[i] * values[i];
            }
        }

        return new(drift[0], drift[1], drift[2]);
    }
}
