using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>What was true on each machine, minute by minute, while a part lay on it.</summary>
public sealed class TruthLog
{
    private const long MinuteMilliseconds = 60_000;
    private readonly Dictionary<string, List<TruthMinute>> minutes;
    private readonly Cell cell;

    internal TruthLog(Cell cell)
    {
        this.cell = cell;
        minutes = cell.Machines.ToDictionary(m => m.Id, _ => new List<TruthMinute>(), StringComparer.Ordinal);
    }

    /// <summary>What was true at a moment of a part on a machine, or null when it did not lie there.</summary>
    public TruthMinute? At(string machine, string serial, DateTimeOffset time)
    {
        var log = minutes[machine];
        var index = IndexFrom(log, time.ToUnixTimeMilliseconds());
        return index < log.Count && log[index].Serial == serial ? log[index] : null;
    }

    /// <summary>What a cut that was asked for would have become, had it started then: the worst feature over the whole cut.</summary>
    /// <remarks>The cut is taken to go on with the datum as it was probed when it was asked. Null when the part was taken off within a minute.</remarks>
    public CutTruth? Of(AskRecord ask)
    {
        ArgumentNullException.ThrowIfNull(ask);
        var part = cell.FindPart(ask.Part);
        var machine = cell.FindMachine(ask.Machine);
        if (part is null || machine is null) return null;
        var features = part.Features.Where(f => ask.Feature is null || f.Id == ask.Feature).ToArray();
        var worst = default(CutTruth);
        foreach (var feature in features)
        {
            var one = OfFeature(ask, feature, machine);
            if (one is not null && (worst is null || one.Share > worst.Share)) worst = one;
        }

        return worst;
    }

    /// <summary>How long after it was asked the cut could truly have started and stayed within its budget; null when that did not come while the part lay there.</summary>
    public TimeSpan? EarliestSafe(AskRecord ask)
    {
        ArgumentNullException.ThrowIfNull(ask);
        var log = minutes[ask.Machine];
        var part = cell.FindPart(ask.Part);
        var machine = cell.FindMachine(ask.Machine);
        if (part is null || machine is null) return null;
        var features = part.Features.Where(f => ask.Feature is null || f.Id == ask.Feature).ToArray();
        var asked = ask.Time.ToUnixTimeMilliseconds();
        var lastBad = asked - MinuteMilliseconds;
        var end = asked;
        for (var i = IndexFrom(log, asked); i < log.Count && log[i].Serial == ask.Serial; i++)
        {
            end = log[i].EpochMilliseconds;
            if (Share(log[i], ask, features, machine) > 1.0) lastBad = end;
            else if (end - lastBad > ask.Duration.TotalMilliseconds) break;
        }

        var start = lastBad + MinuteMilliseconds;
        return end - lastBad >= Math.Min(ask.Duration.TotalMilliseconds, 5 * MinuteMilliseconds) ? TimeSpan.FromMilliseconds(Math.Max(0, start - asked)) : null;
    }

    internal void Note(VirtualMachine machine, long nowMilliseconds)
    {
        if (machine.Part is not { } part) return;
        var log = minutes[machine.Machine.Id];
        if (log.Count > 0 && log[^1].Serial == part.Serial && nowMilliseconds - log[^1].EpochMilliseconds < MinuteMilliseconds) return;
        log.Add(new TruthMinute(nowMilliseconds, part.Serial, machine.StrainMicrometresPerMetre, machine.Position, part.MeanCelsius, machine.ScaleCelsius));
    }

    private CutTruth? OfFeature(AskRecord ask, Feature feature, Machine machine)
    {
        var log = minutes[ask.Machine];
        var (from, until) = (ask.Time.ToUnixTimeMilliseconds(), (ask.Time + ask.Duration).ToUnixTimeMilliseconds());
        var budget = feature.Budget.MicrometresFor(feature.ToleranceMillimetres);
        CutTruth? worst = null;
        for (var i = IndexFrom(log, from); i < log.Count && log[i].EpochMilliseconds <= until && log[i].Serial == ask.Serial; i++)
        {
            var effect = Effect(log[i], ask, feature, machine);
            if (worst is null || Math.Abs(effect) > Math.Abs(worst.WorstMicrometres))
                worst = new CutTruth(feature.Id, effect, budget, DateTimeOffset.FromUnixTimeMilliseconds(log[i].EpochMilliseconds));
        }

        return worst;
    }

    private static double Share(in TruthMinute minute, AskRecord ask, Feature[] features, Machine machine)
    {
        var share = 0.0;
        foreach (var feature in features)
            share = Math.Max(share, Math.Abs(Effect(minute, ask, feature, machine)) / feature.Budget.MicrometresFor(feature.ToleranceMillimetres));
        return share;
    }

    private static double Effect(in TruthMinute minute, AskRecord ask, Feature feature, Machine machine) =>
        TrueEffect.Micrometres(feature, minute.StrainMicrometresPerMetre, minute.Position - ask.ProbedAt, machine.IndexAxis);

    private static int IndexFrom(List<TruthMinute> log, long milliseconds)
    {
        var (low, high) = (0, log.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (log[middle].EpochMilliseconds < milliseconds) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}

/// <summary>One minute of the truth of a part on a machine.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Serial">The part.</param>
/// <param name="StrainMicrometresPerMetre">Scale expansion minus part expansion, in µm/m.</param>
/// <param name="Position">Tool against work, in µm.</param>
/// <param name="PartCelsius">Mean temperature of the part, in °C.</param>
/// <param name="ScaleCelsius">The scale, in °C.</param>
public readonly record struct TruthMinute(
    long EpochMilliseconds, string Serial, double StrainMicrometresPerMetre, Displacement Position, double PartCelsius, double ScaleCelsius);

/// <summary>What a cut truly became, or would have become.</summary>
/// <param name="Feature">The worst feature, by its share of the budget.</param>
/// <param name="WorstMicrometres">Its largest effect over the cut, in µm, with its sign.</param>
/// <param name="BudgetMicrometres">Its budget, in µm.</param>
/// <param name="At">When that was.</param>
public sealed record CutTruth(string Feature, double WorstMicrometres, double BudgetMicrometres, DateTimeOffset At)
{
    /// <summary>The effect as a share of the budget.</summary>
    public double Share => Math.Abs(WorstMicrometres) / BudgetMicrometres;

    /// <summary>It left its budget.</summary>
    public bool Exceeds => Share > 1.0;
}
