using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The faults F01 to F34, each with the change in the physics that makes it.</summary>
public static class FaultCatalogue
{
    private const double HealthyGain = 2.0;
    private static readonly TimeSpan HealthyIntegral = TimeSpan.FromSeconds(1500);

    /// <summary>All of them, in order.</summary>
    public static IReadOnlyList<FaultKind> All { get; } = 
        [.. Control().Concat(Coils()).Concat(Air()).Concat(Sensors()).Concat(Envelope()).Concat(Cell()).OrderBy(f => f.Code, StringComparer.Ordinal)];

    /// <summary>The fault of that number.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static FaultKind Of(string code) => All.FirstOrDefault(f => f.Code == code)
        ?? throw new ArgumentException($"No fault '{code}'; allowed: F01 to F34.", nameof(code));

    /// <summary>A fault as actions of a script.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="code">F01 to F34.</param>
    /// <param name="target">Id of the air handler, zone, sensor, machine, door or cell.</param>
    /// <param name="from">When it begins, from the start of the script.</param>
    /// <param name="until">When it ends.</param>
    /// <param name="size">1 is a fault as a shop would have it.</param>
    /// <exception cref="ArgumentException">There is no such fault, or the cell has no such thing.</exception>
    public static IReadOnlyList<TimedAction> Script(Cell cell, string code, string target, TimeSpan from, TimeSpan until, double size = 1.0)
    {
        var kind = Of(code);
        if (!kind.Fits(cell, target))
            throw new ArgumentException($"Fault {code} ({kind.Name}) needs a target of kind {kind.Target}; '{target}' is none in cell '{cell.Id}'.", nameof(target));
        var place = new FaultPlace(cell, target, size);
        if (code == "F18") return [.. Sun(place, from, until)];
        return [.. kind.Begin(place).Select(a => new TimedAction(from, a)), .. kind.End(place).Select(a => new TimedAction(until, a))];
    }

    private static IEnumerable<FaultKind> Control() =>
    [
        Kind("F01", "control hunting", FaultTarget.AirHandler,
            p => [new RetuneLoop(p.Target, 10 * p.Size, TimeSpan.FromSeconds(400))], p => [new RetuneLoop(p.Target, HealthyGain, HealthyIntegral)]),
        Kind("F02", "short cycling", FaultTarget.DirectExpansion,
            p => [new CutOutCompressor(p.Target, TimeSpan.FromMinutes(2.5 / p.Size))], p => [new CutOutCompressor(p.Target, TimeSpan.Zero)]),
        Kind("F03", "valve stiction", FaultTarget.AirHandler,
            p => [new StiffenValve(p.Target, 0.15 * p.Size)], p => [new StiffenValve(p.Target, 0)]),
        Kind("F04", "cooling valve leaking", FaultTarget.AirHandler,
            p => [new LeakValve(p.Target, 0.35 * p.Size)], p => [new LeakValve(p.Target, 0)]),
        Kind("F05", "cooling valve stuck", FaultTarget.AirHandler,
            p => [new StickValve(p.Target, Math.Clamp(1 - (0.75 * p.Size), 0, 1))], p => [new StickValve(p.Target, null)]),
        Kind("F23", "heating and cooling together", FaultTarget.AirHandler,
            p => [new OverlapHeating(p.Target, 0.35 * p.Size)], p => [new OverlapHeating(p.Target, 0)]),
        Kind("F24", "two air handlers fighting", FaultTarget.AirHandler,
            p => Fighting(p, p.OtherZone, p.OwnZone), p => Fighting(p, null, null)),
        Kind("F28", "thermostat dead band too wide", FaultTarget.AirHandler,
            p => [new WidenThermostat(p.Target, 1.0 * p.Size)], p => [new WidenThermostat(p.Target, 0)]),
        Kind("F33", "air handler by hand", FaultTarget.AirHandler,
            p => [new TakeByHand(p.Target, Math.Clamp(0.3 * p.Size, 0, 1))], p => [new TakeByHand(p.Target, null)]),
        Kind("F34", "wind-up overshoot at start-up", FaultTarget.AirHandler,
            p => [new SetAntiWindup(p.Target, false)], p => [new SetAntiWindup(p.Target, true)]),
    ];

    private static IEnumerable<FaultKind> Coils() =>
    [
        Kind("F06", "insufficient capacity", FaultTarget.AirHandler,
            p => [new StarveCoil(p.Target, 4.5 * p.Size)], p => [new StarveCoil(p.Target, 0)]),
        Kind("F08", "fouled coil", FaultTarget.AirHandler,
            p => [new FoulCoil(p.Target, Math.Max(0.1, 1 - (0.35 * p.Size)))], p => [new FoulCoil(p.Target, 1)]),
        Kind("F09", "chilled water warm", FaultTarget.Cell,
            p => [new WarmChilledWater(5 * p.Size)], p => [new WarmChilledWater(0)]),
        Kind("F10", "refrigerant charge low", FaultTarget.DirectExpansion,
            p => [new LoseRefrigerant(p.Target, Math.Max(0.1, 1 - (0.45 * p.Size)))], p => [new LoseRefrigerant(p.Target, 1)]),
        Kind("F11", "condenser fouled", FaultTarget.DirectExpansion,
            p => [new FoulCondenser(p.Target, Math.Min(0.9, 0.6 * p.Size))], p => [new FoulCondenser(p.Target, 0)]),
        Kind("F26", "outdoor damper stuck", FaultTarget.OutdoorAir,
            p => [new StickDamper(p.Target, Math.Clamp(0.7 * p.Size, 0, 1))], p => [new StickDamper(p.Target, null)]),
    ];

    private static IEnumerable<FaultKind> Air() =>
    [
        Kind("F07", "filter loaded", FaultTarget.AirHandler,
            p => [new LoadFilter(p.Target, Math.Max(0.1, 1 - (0.4 * p.Size)), 0)], p => [new LoadFilter(p.Target, 1, 0)]),
        Kind("F12", "belt torn", FaultTarget.AirHandler, p => [new SlipBelt(p.Target, 0)], p => [new SlipBelt(p.Target, 1)]),
        Kind("F20", "stratification", FaultTarget.Zone,
            p => [new LoseMixing(p.Target, 0.12 / p.Size)], p => [new LoseMixing(p.Target, 1)]),
        Kind("F21", "supply short-circuits to return", FaultTarget.AirHandler,
            p => [new ShortCircuitSupply(p.Target, 0.5 * p.Size)], p => [new ShortCircuitSupply(p.Target, 0)]),
        Kind("F31", "fan speed reduced", FaultTarget.AirHandler,
            p => [new SetFanSpeed(p.Target, Math.Max(0.1, 1 - (0.3 * p.Size)))], p => [new SetFanSpeed(p.Target, 1)]),
    ];

    private static IEnumerable<FaultKind> Sensors() =>
    [
        Kind("F13", "sensor offset", FaultTarget.Sensor, p => [new OffsetSensor(p.Target, 0.6 * p.Size)], p => [new OffsetSensor(p.Target, 0)]),
        Kind("F14", "sensor stuck", FaultTarget.Sensor, p => [new FreezeSensor(p.Target, true)], p => [new FreezeSensor(p.Target, false)]),
        Kind("F15", "sensor slow", FaultTarget.Sensor, p => [new SlowSensor(p.Target, 20 * p.Size)], p => [new SlowSensor(p.Target, 1)]),
        Kind("F18", "sun on a sensor", FaultTarget.Sensor, p => [new ShineOn(p.Target, 1.5 * p.Size)], p => [new ShineOn(p.Target, 0)]),
    ];

    private static IEnumerable<FaultKind> Envelope() =>
    [
        Kind("F16", "door left open", FaultTarget.Door, p => [new MoveDoor(p.Target, true)], p => [new MoveDoor(p.Target, false)]),
        Kind("F17", "leaky envelope", FaultTarget.Zone, p => [new LeakEnvelope(p.Target, 1 + p.Size)], p => [new LeakEnvelope(p.Target, 1)]),
        Kind("F19", "hall drives the zone", FaultTarget.Zone,
            p => [.. HallDrives(p, 1 + (5 * p.Size), 4.5)], p => [.. HallDrives(p, 1, 0)]),
        Kind("F29", "neighbour through the partition", FaultTarget.Zone,
            p => [new ThinPartition(p.Target, 900 * p.Size)], p => [new ThinPartition(p.Target, 0)]),
    ];

    private static IEnumerable<FaultKind> Cell() =>
    [
        Kind("F22", "set-back left on", FaultTarget.Zone,
            p => [new MoveSetpoint(p.Target, 20 + (1.0 * p.Size))], p => [new MoveSetpoint(p.Target, Setpoint(p))]),
        Kind("F25", "machine heat step", FaultTarget.Machine,
            p => [new AddMachineHeat(p.Target, 8 * p.Size)], p => [new AddMachineHeat(p.Target, 0)]),
        Kind("F27", "dew point near", FaultTarget.Cell, p => [new SwitchDrying(false)], p => [new SwitchDrying(true)]),
        Kind("F30", "power event", FaultTarget.Cell,
            p => [new FailPower(TimeSpan.FromMinutes(2 * p.Size), TimeSpan.FromMinutes(15 * p.Size))], p => []),
        Kind("F32", "coolant chiller tripped", FaultTarget.Machine, p => [new TripChiller(p.Target, true)], p => [new TripChiller(p.Target, false)]),
    ];

    private static IEnumerable<CellAction> Fighting(FaultPlace place, string? watched, string? watchedByOther)
    {
        yield return new CrossLoop(place.Target, watched);
        if (place.OtherAirHandler is { } other) yield return new CrossLoop(other, watchedByOther);
    }

    // A tight room in control hides the hall: only a leaky one at the end of its coil shows it.
    private static IEnumerable<CellAction> HallDrives(FaultPlace place, double factor, double lostKelvin)
    {
        yield return new LeakEnvelope(place.Target, factor);
        foreach (var unit in place.Cell.Zones.First(z => z.Id == place.Target).AirHandlers) yield return new StarveCoil(unit, lostKelvin);
    }

    // Half a sine over the time it lasts; the sky is clear.
    private static IEnumerable<TimedAction> Sun(FaultPlace place, TimeSpan from, TimeSpan until)
    {
        for (var at = from; at < until; at += TimeSpan.FromMinutes(10))
        {
            var share = Math.Sin(Math.PI * Math.Clamp((at - from) / (until - from), 0, 1));
            yield return new TimedAction(at, new ShineOn(place.Target, 2.3 * place.Size * share));
        }

        yield return new TimedAction(until, new ShineOn(place.Target, 0));
    }

    private static double Setpoint(FaultPlace place) => place.Cell.Zones.First(z => z.Id == place.Target).Setpoint.Value;

    private static FaultKind Kind(
        string code, string name, FaultTarget target, Func<FaultPlace, IEnumerable<CellAction>> begin, Func<FaultPlace, IEnumerable<CellAction>> end) =>
        new(code, name, target) { Begin = begin, End = end };
}
