namespace ClimateGuard.Thermal;

/// <summary>Probe a length on the part that is known at 20 °C: a thermometer of the mismatch itself.</summary>
internal static class SpanProbe
{
    private const double Minutes = 3;

    public static RankedAction Of(WhatIf what)
    {
        var length = LongestMillimetres(what.Model);
        var value = MeasurementOutlook.Of(what, Minutes, (state, deviation) =>
            what.Model.ObserveSpan(state, length, Expected(what.Model, state, length) + deviation, what.Question.SpanUMicrometres));
        return new()
        {
            Kind = ActionKind.SpanProbe,
            Takes = TimeSpan.FromMinutes(Minutes),
            Result = value.AtExpectation,
            Measurement = value.Value,
        };
    }

    private static double Expected(ThermalModel model, ThermalState state, double millimetres)
    {
        var effect = model.Effects[0];
        var part = model.PartTemperature(state).Value - model.ReferenceCelsius;
        return millimetres * 1e-3 * ((effect.PartGain * part) - (effect.ScaleGain * (state[StateLayout.Scale] - model.ReferenceCelsius)));
    }

    /// <summary>The longest distance on the part that its features give; 200 mm when they give none.</summary>
    private static double LongestMillimetres(ThermalModel model) => Math.Max(200, model.Effects.Max(effect => effect.Geometry switch
    {
        FeatureGeometry.Along along => Math.Abs(along.Effect.LengthMetres) * 1e3,
        FeatureGeometry.Indexed indexed => 2e3 * indexed.RadiusMetres,
        FeatureGeometry.Pattern pattern => pattern.OuterMillimetres.Max(point => point.Radius),
        _ => 0,
    }));
}
