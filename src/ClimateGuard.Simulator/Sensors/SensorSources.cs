using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>What stands behind each sensor: found by place, zone, machine and air handler, never by its id.</summary>
internal sealed class SensorSources(VirtualCell cell)
{
    public Func<double> Behind(Sensor sensor, int index) => sensor.Quantity switch
    {
        SensorQuantity.Temperature => Temperature(sensor),
        SensorQuantity.RelativeHumidity => () => cell.HumidityPercent,
        SensorQuantity.Contact => Contact(sensor, index),
        SensorQuantity.Power when UnitOf(sensor) is { } unit => () => CompressorKilowatts(unit),
        SensorQuantity.Power => MachineValue(sensor, m => m.PowerKilowatts),
        SensorQuantity.Speed => MachineValue(sensor, m => m.SpindleRevolutionsPerMinute),
        SensorQuantity.Pressure => UnitValue(sensor, u => u.Fan.FilterPascals, 0),
        SensorQuantity.Flow => UnitValue(sensor, u => u.CubicMetresPerHour, 0),
        SensorQuantity.Fraction => Fraction(sensor),
        _ => () => Midpoint(sensor),
    };

    private Func<double> Temperature(Sensor sensor) => sensor.Place switch
    {
        SensorPlace.Air => Air(sensor),
        SensorPlace.Supply => UnitValue(sensor, u => u.SupplyCelsius, 18),
        SensorPlace.Return => UnitValue(sensor, u => u.ReturnCelsius, 20),
        SensorPlace.Mixed => UnitValue(sensor, u => u.MixedCelsius, 20),
        SensorPlace.Outdoor => () => cell.Weather.OutdoorCelsius,
        SensorPlace.Hall => () => cell.Weather.HallCelsius,
        SensorPlace.Storage => () => cell.Weather.StoreCelsius,
        SensorPlace.ChilledWater => () => cell.Weather.ChilledWaterCelsius,
        SensorPlace.Coolant or SensorPlace.Dielectric => Tank(sensor),
        SensorPlace.Scale => MachineValue(sensor, m => m.ScaleCelsius, 20),
        SensorPlace.Structure => Structure(sensor),
        SensorPlace.Part or SensorPlace.Pallet => MachineValue(sensor, m => m.Part?.SurfaceCelsius ?? m.LocalAirCelsius, 20),
        SensorPlace.Command when IsSetpoint(sensor) => Setpoint(sensor),
        _ => () => Midpoint(sensor),
    };

    private Func<double> Air(Sensor sensor)
    {
        var height = sensor.HeightMetres ?? 1.5;
        var place = 0.04 * cell.ChanceOf(sensor.Id + "/place").Normal();
        if (cell.Room.FindZone(sensor.Zone) is { } zone) return () => zone.AirCelsius(height) + place;
        if (sensor.Machine is not null && cell.FindMachine(sensor.Machine) is { } machine) return () => machine.LocalAirCelsius + place;
        return () => cell.Weather.MeasuringRoomCelsius + place;
    }

    // A machine names the sensor in its tank; any other coolant sensor of it sits in the line back from the work space.
    private Func<double> Tank(Sensor sensor)
    {
        if (cell.FindMachine(sensor.Machine) is not { } machine) return () => 20;
        return machine.Tank is { } tank && machine.Machine.CoolantSensor == sensor.Id
            ? () => tank.Celsius
            : () => machine.ReturnLineCelsius;
    }

    private Func<double> Structure(Sensor sensor)
    {
        if (cell.FindMachine(sensor.Machine) is not { Structure.Count: > 0 } machine) return MachineValue(sensor, m => m.LocalAirCelsius, 20);
        var siblings = cell.Description.Sensors.Where(s => s.Place == SensorPlace.Structure && s.Machine == sensor.Machine).ToList();
        var mode = machine.Structure[siblings.IndexOf(sensor) % machine.Structure.Count];
        return () => mode.Celsius;
    }

    private Func<double> Contact(Sensor sensor, int index)
    {
        if (sensor.Place == SensorPlace.Command && UnitOf(sensor) is { } unit) return () => unit.Fan.Running ? 1 : 0;
        return () => cell.ContactOpen(index) ? 1 : 0;
    }

    private Func<double> Fraction(Sensor sensor)
    {
        if (UnitOf(sensor) is not { } unit) return () => Midpoint(sensor);
        return RoleOf(sensor, unit.Description) switch
        {
            "heatingCommand" => () => unit.HeatingCommand,
            "fanStatus" => () => unit.Fan.Running ? 1 : 0,
            "compressor" => () => unit.Compressor is { Running: true } ? 1 : 0,
            "fanSpeed" => () => unit.Fan.Speed,
            "damperCommand" => () => unit.Description.OutdoorAir ? unit.Damper.Command : 0,
            "occupied" => () => cell.Phase == ShopPhase.Off ? 0 : 1,
            _ => () => unit.CoolingCommand,
        };
    }

    private bool IsSetpoint(Sensor sensor) => UnitOf(sensor) is not null;

    private Func<double> Setpoint(Sensor sensor)
    {
        var unit = UnitOf(sensor)!;
        return RoleOf(sensor, unit.Description) is "heatingSetpoint" or "coolingSetpoint"
            ? () => unit.SetpointCelsius
            : () => unit.AskedCelsius;
    }

    // A plant file may say it at the sensor, or at the air handler's points.
    private AirHandlerUnit? UnitOf(Sensor sensor) =>
        cell.Room.FindAirHandler(sensor.AirHandler)
        ?? cell.Room.AirHandlers.FirstOrDefault(u => u.Description.Points.Values.Contains(sensor.Id));

    private static string? RoleOf(Sensor sensor, AirHandler airHandler) =>
        airHandler.Points.Where(p => p.Value == sensor.Id).Select(p => p.Key).FirstOrDefault();

    private Func<double> MachineValue(Sensor sensor, Func<VirtualMachine, double> value, double otherwise = 0) =>
        cell.FindMachine(sensor.Machine) is { } machine ? () => value(machine) : () => otherwise;

    private Func<double> UnitValue(Sensor sensor, Func<AirHandlerUnit, double> value, double otherwise) =>
        UnitOf(sensor) is { } unit ? () => value(unit) : () => otherwise;

    // 400 V, three phases, power factor 0.85.
    private static double CompressorKilowatts(AirHandlerUnit unit) => (unit.Compressor?.Amperes ?? 0) * 400 * 1.732 * 0.85 / 1000;

    private static double Midpoint(Sensor sensor) => (sensor.PlausibleLow + sensor.PlausibleHigh) / 2;
}
