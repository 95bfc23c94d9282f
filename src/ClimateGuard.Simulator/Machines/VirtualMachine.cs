using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A machine with its true structure, scale, spindle and tank, and the part that lies on it.</summary>
public sealed class VirtualMachine
{
    private readonly MachineTraits traits;
    private readonly StructureMode[] structure;
    private readonly SpindleGrowth[] spindle;
    private readonly LagNode scale;
    private readonly LoadSwing swing;
    private Displacement atProbing;
    private bool? runningOverride;

    internal VirtualMachine(Machine machine, Chance chance, double scaleOfChance)
    {
        Machine = machine;
        traits = MachineTraits.Of(machine, chance, scaleOfChance);
        swing = new LoadSwing(chance, scaleOfChance);
        structure = [.. machine.Drift.Select(m => new StructureMode(
            m.Axis, chance.Perturbed(m.SensitivityMicrometresPerKelvin, scaleOfChance), Moved(m.TimeConstant, chance, scaleOfChance)))];
        spindle = [.. machine.Spindle.Select(m => new SpindleGrowth(
            m.Axis, chance.Perturbed(m.FullMicrometres, scaleOfChance), Moved(m.TimeConstant, chance, scaleOfChance)))];
        scale = new LagNode(Moved(machine.Scale.TimeConstant, chance, scaleOfChance), 20.0);
        ScaleAlphaMicrometresPerMetreKelvin = machine.Scale.AlphaMicrometresPerMetreKelvin
            + (scaleOfChance * chance.Normal() * machine.Scale.UAlphaMicrometresPerMetreKelvin);
        Tank = machine.CoolantSensor is null
            ? null
            : new CoolantTank(traits.TankJoulesPerKelvin, traits.TankWattsPerKelvin, traits.PumpWatts, traits.ChillerWatts);
    }

    /// <summary>The description.</summary>
    public Machine Machine { get; }

    /// <summary>The true expansion coefficient of the scale, in µm/(m K).</summary>
    public double ScaleAlphaMicrometresPerMetreKelvin { get; }

    /// <summary>The tank of coolant or dielectric, or null.</summary>
    public CoolantTank? Tank { get; }

    /// <summary>The part on it, or null.</summary>
    public VirtualPart? Part { get; internal set; }

    /// <summary>Coolant runs over the part.</summary>
    public bool CoolantOn { get; internal set; }

    /// <summary>Whether it runs.</summary>
    public bool Running { get; private set; }

    /// <summary>Power drawn, in kW.</summary>
    public double PowerKilowatts { get; private set; }

    /// <summary>Power of something that was added to it, in kW.</summary>
    public double ExtraKilowatts { get; internal set; }

    /// <summary>Spindle speed, in 1/min.</summary>
    public double SpindleRevolutionsPerMinute => Running ? traits.SpindleRevolutionsPerMinute : 0;

    /// <summary>The air it stands in, in °C.</summary>
    public double LocalAirCelsius { get; private set; } = 20.0;

    /// <summary>The scale, in °C.</summary>
    public double ScaleCelsius => scale.Value;

    /// <summary>The structure, mode by mode.</summary>
    public IReadOnlyList<StructureMode> Structure => structure;

    /// <summary>What runs back from the work space, in °C; the air when there is no tank.</summary>
    public double ReturnLineCelsius => Tank is null ? LocalAirCelsius : Tank.Celsius + (CoolantOn && Running ? 0.6 : 0.0);

    /// <summary>Heat into the air of the room during the last step, in W.</summary>
    public double HeatWatts { get; private set; }

    /// <summary>Tool against work, against a structure at 20 °C and a cold spindle, in µm.</summary>
    public Displacement Position
    {
        get
        {
            double x = 0, y = 0, z = 0;
            foreach (var mode in structure) Add(mode.Axis, mode.Micrometres, ref x, ref y, ref z);
            foreach (var mode in spindle) Add(mode.Axis, mode.Micrometres, ref x, ref y, ref z);
            return new Displacement(x, y, z);
        }
    }

    /// <summary>What the tool has moved against the work since each axis was probed, in µm.</summary>
    public Displacement SinceProbing => Position - atProbing;

    /// <summary>Where the tool stood against the work when each axis was last probed, in µm.</summary>
    internal Displacement ProbedAt => atProbing;

    /// <summary>Scale expansion minus part expansion, in µm/m; 0 without a part.</summary>
    public double StrainMicrometresPerMetre
    {
        get
        {
            if (Part is null) return 0;
            var ofScale = Machine.Scale.Compensated ? 0 : ScaleAlphaMicrometresPerMetreKelvin * (ScaleCelsius - 20.0);
            var ofPart = Machine.PartCompensated ? 0 : Part.AlphaMicrometresPerMetreKelvin * (Part.MeanCelsius - 20.0);
            return ofScale - ofPart;
        }
    }

    /// <summary>What temperature would truly do to each feature of the part on it; empty without a part.</summary>
    public IReadOnlyList<FeatureTruth> Truth()
    {
        if (Part is null) return [];
        var strain = StrainMicrometresPerMetre;
        var moved = SinceProbing;
        return [.. Part.Part.Features.Select(f => new FeatureTruth(
            f.Id,
            TrueEffect.Micrometres(f, strain, moved, Machine.IndexAxis),
            TrueEffect.Micrometres(f, strain, default, Machine.IndexAxis),
            TrueEffect.Micrometres(f, 0, moved, Machine.IndexAxis),
            Part.MeanCelsius,
            ScaleCelsius))];
    }

    internal void Probe(IReadOnlyList<Axis> axes)
    {
        var now = Position;
        atProbing = new Displacement(
            axes.Contains(Axis.X) ? now.X : atProbing.X,
            axes.Contains(Axis.Y) ? now.Y : atProbing.Y,
            axes.Contains(Axis.Z) ? now.Z : atProbing.Z);
    }

    /// <summary>Runs or rests regardless of the shift; null goes back to the shift.</summary>
    internal void Run(bool? running) => runningOverride = running;

    internal void Advance(double zoneAirCelsius, double humidityPercent, ShopPhase phase, bool powered, double seconds)
    {
        Running = powered && (runningOverride ?? phase == ShopPhase.Running);
        var load = swing.Next(seconds);
        var atRest = powered ? traits.IdleKilowatts * (phase == ShopPhase.Off ? 0.15 : 1.0) : 0;
        PowerKilowatts = (Running ? traits.RunningKilowatts * load : atRest) + (powered ? ExtraKilowatts : 0);
        LocalAirCelsius = zoneAirCelsius + (Running ? traits.OwnWarmthKelvin : 0);
        Tank?.Advance(zoneAirCelsius, powered && (Running || CoolantOn), powered, seconds);
        HeatWatts = (PowerKilowatts * 1000.0) + (Tank?.ToAirWatts ?? 0);
        foreach (var mode in structure) mode.Advance(LocalAirCelsius, seconds);
        foreach (var mode in spindle) mode.Advance(Running ? 1.0 : 0.0, seconds);
        scale.Advance(LocalAirCelsius, seconds);
        if (Part is null) return;
        if (CoolantOn && Tank is not null) Part.AdvanceInCoolant(Machine.CoolantMedium, Tank.Celsius, LocalAirCelsius, seconds);
        else Part.AdvanceInAir(LocalAirCelsius, humidityPercent, seconds);
    }

    private static TimeSpan Moved(TimeSpan timeConstant, Chance chance, double scaleOfChance) =>
        TimeSpan.FromSeconds(chance.Perturbed(timeConstant.TotalSeconds, scaleOfChance));

    private static void Add(Axis axis, double micrometres, ref double x, ref double y, ref double z)
    {
        if (axis == Axis.X) x += micrometres;
        else if (axis == Axis.Y) y += micrometres;
        else z += micrometres;
    }
}
