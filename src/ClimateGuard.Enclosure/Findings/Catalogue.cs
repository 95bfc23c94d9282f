namespace ClimateGuard.Enclosure;

/// <summary>All causes and the rules that judge them.</summary>
public static class Catalogue
{
    /// <summary>The causes, F01 to F34.</summary>
    public static IReadOnlyList<FaultCause> All { get; } =
    [
        F01Hunting.Cause, F02ShortCycling.Cause, F03ValveStiction.Cause, F04ValveLeaking.Cause, F05ValveStuck.Cause,
        F06InsufficientCapacity.Cause, F07FilterFouled.Cause, F08CoilFouled.Cause, F09ChilledWaterWarm.Cause,
        F10RefrigerantLow.Cause, F11CondenserFouled.Cause, F12FanFailure.Cause, F13SensorOffset.Cause, F14SensorStuck.Cause,
        F15SensorSlow.Cause, F16DoorOpen.Cause, F17LeakyEnvelope.Cause, F18SunOnSensor.Cause, F19HallInfluence.Cause,
        F20Stratification.Cause, F21SupplyShortCircuit.Cause, F22SetPointMoved.Cause, F23HeatingAndCooling.Cause,
        F24HandlersFighting.Cause, F25HeatLoadStep.Cause, F26OutdoorDamper.Cause, F27DewPoint.Cause, F28DeadBandWide.Cause,
        F29NeighbourHall.Cause, F30PowerEvent.Cause, F31FanSlowed.Cause, F32CoolantChiller.Cause, F33ByHand.Cause,
        F34StartUpOvershoot.Cause,
    ];

    internal static IReadOnlyList<(FaultCause Cause, Func<HandlerCase, IEnumerable<Assessment>> Rule)> OfHandlers { get; } =
    [
        (F01Hunting.Cause, F01Hunting.Judge), (F02ShortCycling.Cause, F02ShortCycling.Judge), (F03ValveStiction.Cause, F03ValveStiction.Judge),
        (F04ValveLeaking.Cause, F04ValveLeaking.Judge), (F05ValveStuck.Cause, F05ValveStuck.Judge),
        (F06InsufficientCapacity.Cause, F06InsufficientCapacity.Judge), (F07FilterFouled.Cause, F07FilterFouled.Judge),
        (F08CoilFouled.Cause, F08CoilFouled.Judge), (F09ChilledWaterWarm.Cause, F09ChilledWaterWarm.Judge),
        (F10RefrigerantLow.Cause, F10RefrigerantLow.Judge), (F11CondenserFouled.Cause, F11CondenserFouled.Judge),
        (F12FanFailure.Cause, F12FanFailure.Judge), (F21SupplyShortCircuit.Cause, F21SupplyShortCircuit.Judge),
        (F23HeatingAndCooling.Cause, F23HeatingAndCooling.Judge), (F26OutdoorDamper.Cause, F26OutdoorDamper.Judge),
        (F28DeadBandWide.Cause, F28DeadBandWide.Judge), (F31FanSlowed.Cause, F31FanSlowed.Judge), (F33ByHand.Cause, F33ByHand.Judge),
        (F34StartUpOvershoot.Cause, F34StartUpOvershoot.Judge),
    ];

    internal static IReadOnlyList<(FaultCause Cause, Func<ZoneCase, IEnumerable<Assessment>> Rule)> OfZones { get; } =
    [
        (F13SensorOffset.Cause, F13SensorOffset.Judge), (F14SensorStuck.Cause, F14SensorStuck.Judge), (F15SensorSlow.Cause, F15SensorSlow.Judge),
        (F16DoorOpen.Cause, F16DoorOpen.Judge), (F17LeakyEnvelope.Cause, F17LeakyEnvelope.Judge), (F18SunOnSensor.Cause, F18SunOnSensor.Judge),
        (F19HallInfluence.Cause, F19HallInfluence.Judge), (F20Stratification.Cause, F20Stratification.Judge),
        (F22SetPointMoved.Cause, F22SetPointMoved.Judge), (F24HandlersFighting.Cause, F24HandlersFighting.Judge),
        (F25HeatLoadStep.Cause, F25HeatLoadStep.Judge), (F27DewPoint.Cause, F27DewPoint.Judge), (F29NeighbourHall.Cause, F29NeighbourHall.Judge),
        (F30PowerEvent.Cause, F30PowerEvent.Judge), (F32CoolantChiller.Cause, F32CoolantChiller.Judge),
    ];

    /// <summary>The cause of that id, or null.</summary>
    public static FaultCause? Find(string id) => All.FirstOrDefault(cause => cause.Id == id);
}
