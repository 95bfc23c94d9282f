using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator.Faults;

/// <summary>What the south or north unit and its zone were like at one minute of a trial.</summary>
internal readonly record struct TrialMinute(
    double Low, double High, double Supply, double Return, double Mixed, double Outdoor, double Hall, double Cooling, double Heating,
    double OtherCooling, double Position, double Flow, double FilterPascals, double Running, double Amperes, double Humidity, double Power);

/// <summary>A day of a small cell with one fault on it, from Thursday 09:00 (a hot day), minute by minute.</summary>
internal sealed class FaultTrial
{
    private readonly Cell description;
    private readonly VirtualCell cell;
    private readonly Dictionary<string, List<double>> said = [];

    private FaultTrial(Cell description, VirtualCell cell) => (this.description, this.cell) = (description, cell);

    public List<TrialMinute> Minutes { get; } = [];

    public VirtualCell Cell => cell;

    /// <summary>Plays so many hours; the fault is on from hour to hour.</summary>
    public static FaultTrial Play(string code, string target, double hours, double from, double until, Action<FaultSetting>? set = null)
    {
        var setting = new FaultSetting();
        set?.Invoke(setting);
        var description = DemoCell.Make(setting.Medium, setting.OutdoorAir);
        var fault = code.Length == 0
            ? []
            : FaultCatalogue.Script(description, code, target, TimeSpan.FromHours(from), TimeSpan.FromHours(until), setting.Size);
        var start = DemoScripts.ThursdayMorning(description) + setting.Later;
        var cell = new VirtualCell(description, new VirtualCellOptions(setting.Seed, start, Script.Once([.. setting.Before, .. fault])));
        var trial = new FaultTrial(description, cell);
        trial.Run(hours, setting.Unit);
        return trial;
    }

    /// <summary>Values of a quantity from hour to hour.</summary>
    public double[] Of(Func<TrialMinute, double> what, double from, double until) =>
        [.. Minutes.Skip((int)(from * 60)).Take((int)((until - from) * 60)).Select(what)];

    /// <summary>What a sensor said from hour to hour.</summary>
    public double[] Said(string sensor, double from, double until) =>
        [.. said[sensor].Skip((int)(from * 360)).Take((int)((until - from) * 360))];

    public double Mean(Func<TrialMinute, double> what, double from, double until) => Of(what, from, until).Average();

    public double Span(Func<TrialMinute, double> what, double from, double until)
    {
        var values = Of(what, from, until);
        return values.Max() - values.Min();
    }

    private void Run(double hours, string unitId)
    {
        var unit = cell.Room.FindAirHandler(unitId)!;
        var other = cell.Room.AirHandlers.First(u => u.Description.Id != unitId);
        var zone = cell.Room.Zones.First(z => z.AirHandlers.Contains(unit));
        foreach (var sensor in description.Sensors) said[sensor.Id] = [];
        for (var minute = 0; minute < hours * 60; minute++)
        {
            cell.Advance(cell.Now + TimeSpan.FromMinutes(1), r => said[description.Sensors[r.Sensor].Id].Add(r.Value), _ => { });
            Minutes.Add(new TrialMinute(
                zone.LowCelsius, zone.HighCelsius, unit.SupplyCelsius, unit.ReturnCelsius, unit.MixedCelsius, cell.Weather.OutdoorCelsius,
                cell.Weather.HallCelsius, unit.CoolingCommand, unit.HeatingCommand, other.CoolingCommand, unit.CoolingValve.Position,
                unit.Fan.FlowShare, unit.Fan.FilterPascals, unit.Compressor is { Running: true } ? 1 : 0, unit.Compressor?.Amperes ?? 0,
                cell.HumidityPercent, cell.Machines.Sum(m => m.PowerKilowatts)));
        }
    }
}

/// <summary>What a trial may change.</summary>
internal sealed class FaultSetting
{
    public CoolingMedium Medium { get; set; } = CoolingMedium.ChilledWater;

    public bool OutdoorAir { get; set; }

    public double Size { get; set; } = 1.0;

    public int Seed { get; set; } = 7;

    /// <summary>The unit that is looked at.</summary>
    public string Unit { get; set; } = "ahu2";

    /// <summary>How much later than Thursday 09:00 it begins.</summary>
    public TimeSpan Later { get; set; }

    /// <summary>What else happens.</summary>
    public IReadOnlyList<TimedAction> Before { get; set; } = [];
}
