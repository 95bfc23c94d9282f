using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One ordinary job: a blank comes from somewhere, is probed, roughed under coolant, perhaps measured, asked for and finished.</summary>
/// <remarks>
/// Shares and sizes are invented: a blank is soaked (55 %), from the hall (20 %), from the store (15 %) or from the wash (10 %); four of five
/// job messages say its temperature, within 0.3 K; one in four is measured before it is asked for; every second dry finish is blown dry first.
/// </remarks>
internal sealed record JobPlan(Machine Machine, Part Part, string Serial, string Operation, TimeSpan From)
{
    private const double SaidUncertainty = 0.3;
    private const double SaidShare = 0.8;
    private const double SoakedCelsius = 20.0;

    /// <summary>How long the shop waits for a part that is truly out, at most.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromMinutes(90);

    /// <summary>The longest finish cut that is asked for at once.</summary>
    public TimeSpan LongestCut { get; init; } = TimeSpan.FromMinutes(60);

    /// <summary>How long the machine is taken at most.</summary>
    public TimeSpan Longest => TimeSpan.FromMinutes(45) + Patience + LongestCut + TimeSpan.FromMinutes(15);

    /// <summary>What happens to the part, and what is said of it.</summary>
    /// <param name="chance">Decides what happens.</param>
    /// <param name="origin">Where the blank comes from, or null to draw it.</param>
    /// <param name="telling">Decides what people say of it beyond that; null when they say that it comes in now, and nothing of how it was dried.</param>
    public IEnumerable<TimedAction> Actions(Chance chance, string? origin, Chance? telling = null)
    {
        var (from, blank) = Blank(chance, origin);
        var (soaked, saysEntry, saysDry) = telling is null ? (default, false, false)
            : (TimeSpan.FromHours(6 + (12 * telling.Uniform())), telling.Uniform() < SaidShare, telling.Uniform() < SaidShare);
        var feature = Part.Features.Count > 1 && chance.Uniform() < 0.7 ? Part.Features[(int)(chance.Uniform() * Part.Features.Count)] : null;
        var cut = feature?.FinishDuration ?? Part.Features.Aggregate(TimeSpan.Zero, (sum, f) => sum + f.FinishDuration);
        cut = cut > LongestCut ? LongestCut : cut;
        var said = chance.Uniform() < SaidShare;
        yield return At(0, new LoadJob(Machine.Id, Serial, Part.Number, Operation)
        {
            TrueCelsius = blank, Origin = from, SaysTemperature = said, SaidUncertaintyKelvin = SaidUncertainty,
            SaidErrorKelvin = SaidUncertainty * chance.Normal(), Planned = cut,
            InCellFor = saysEntry && from is null ? soaked : default,
            FromShelfKelvin = telling is not null && from is null ? blank - SoakedCelsius : null,
        });
        yield return At(0.5, new RunMachine(Machine.Id, true));
        yield return At(2, new ProbeDatum(Machine.Id));
        var rough = 12 + (18 * chance.Uniform());
        var wet = Machine.CoolantSensor is not null && chance.Uniform() < 0.8;
        if (wet) yield return At(3, new SwitchCoolant(Machine.Id, true));
        var dry = wet && Machine.CoolantMedium != CoolantMedium.Submerged && chance.Uniform() < 0.25;
        if (dry) yield return At(rough * 0.6, new SwitchCoolant(Machine.Id, false));
        if (dry && chance.Uniform() < 0.5) yield return At((rough * 0.6) + 1, new BlowDry(Machine.Id) { Says = saysDry });
        if (chance.Uniform() < 0.3) yield return At(rough - 2, new ProbeDatum(Machine.Id));
        if (Measure(chance) is { } measure) yield return At(rough - 1, measure);
        yield return At(rough, new FinishWhenSafe(Machine.Id, Operation, cut, Patience) { Feature = feature?.Id });
    }

    private CellAction? Measure(Chance chance)
    {
        var draw = chance.Uniform();
        return draw < 0.10 ? new MeasureContact(Machine.Id)
            : draw < 0.18 ? new ProbeSpan(Machine.Id, 300)
            : draw < 0.25 ? new ReprobeDatum(Machine.Id, Axis.Z)
            : null;
    }

    private static (string? Origin, double Celsius) Blank(Chance chance, string? origin)
    {
        var draw = origin is null ? chance.Uniform() : origin switch { "hall" => 0.6, "storage" => 0.8, "wash" => 0.95, _ => 0.1 };
        return draw switch
        {
            < 0.55 => (null, SoakedCelsius + (0.25 * chance.Normal())),
            < 0.75 => ("hall", 23.5 + (1.5 * chance.Normal())),
            < 0.90 => ("storage", 12.3 + (0.4 * chance.Normal())),
            _ => ("wash", 29.0 + (1.5 * chance.Normal())),
        };
    }

    private TimedAction At(double minute, CellAction action) => new(From + TimeSpan.FromMinutes(minute), action);
}
