using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Measure the part's temperature by contact.</summary>
internal static class ContactTemperature
{
    private const double Minutes = 3;

    public static RankedAction Of(WhatIf what)
    {
        var value = MeasurementOutlook.Of(what, Minutes, (state, deviation) => what.Model.ObserveContact(
            state, new Celsius(what.Model.PartTemperature(state).Value + deviation), new Kelvins(FinishCutRisk.QuickTemperatureKelvins)));
        return new()
        {
            Kind = ActionKind.ContactTemperature,
            Takes = TimeSpan.FromMinutes(Minutes),
            Result = value.AtExpectation,
            Measurement = value.Value,
        };
    }
}
