using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Risk;

/// <summary>Parts and machines of an invented shop, built by hand so that no plant file is needed.</summary>
internal static class Shop
{
    public static Material DuctileIron => new()
    {
        Id = "ductile-iron",
        AlphaMicrometresPerMetreKelvin = 11.5,
        UAlphaMicrometresPerMetreKelvin = 0.3,
        ConductivityWattsPerMetreKelvin = 32,
        DensityKilogramsPerCubicMetre = 7200,
        SpecificHeatJoulesPerKilogramKelvin = 500,
    };

    /// <summary>A planet carrier: five bores on diameter 380, 7.5 µm of budget.</summary>
    public static Part Carrier => new()
    {
        Number = "PC-620",
        Material = DuctileIron,
        VolumeToAreaMillimetres = 22,
        HalfThicknessMillimetres = 22,
        Features =
        [
            new PositionFeature
            {
                Id = "bores",
                ToleranceMillimetres = 0.025,
                Budget = BudgetRule.Absolute(7.5),
                Points = Some.Circle(190, 5),
                FinishDuration = TimeSpan.FromMinutes(20),
            },
        ],
    };

    public static Machine Horizontal => Some.Machine(10.5) with
    {
        Id = "M2",
        Drift = [new(Axis.X, 3, TimeSpan.FromHours(6)), new(Axis.Y, 5, TimeSpan.FromHours(6))],
    };

    /// <summary>A cut and a hold in quiet air of 20 °C.</summary>
    public static HoldAhead Hold(Medium now = Medium.Air, double air = 20, double wetBulb = 13, int paths = 1000) => new()
    {
        Now = new Surroundings(air, now, 20, wetBulb),
        Cut = new CutAhead { Surroundings = new Surroundings(air, Medium.Flood, 20), Paths = paths },
    };

    public static ThermalState Loaded(ThermalModel model, double partCelsius, double u = 0.1, double air = 20)
    {
        var state = model.Settled(new Surroundings(air));
        model.LoadPart(state, new Celsius(partCelsius), new Kelvins(u));
        return state;
    }

    public static ActionQuestion Question(ThermalModel model, ThermalState state, HoldAhead hold) => new()
    {
        Model = model,
        State = state,
        Hold = hold,
        Policies = new Policies(),
        Coolant = new Celsius(20),
    };
}
