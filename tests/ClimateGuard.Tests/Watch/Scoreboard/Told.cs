using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Scoreboard;

/// <summary>A ledger told line by line, as a worker writes it.</summary>
internal sealed class Told(Cell cell)
{
    private bool shadow;

    public HoldHistory History { get; } = new();

    public static DateTimeOffset At(double minutes) => Some.Morning.AddMinutes(minutes);

    public Told AsShadow()
    {
        shadow = true;
        return this;
    }

    public Told Outlook(double minutes, string serial, string level, double probability = 0.5, double worst = 20, string machine = "M1") => Line(
        minutes, LedgerKinds.Outlook, machine,
        Text($$"""{"machine":"{{machine}}","serial":"{{serial}}","part":"D-1","operation":"40","level":"{{level}}","feature":"holes","effectUm":1,"budgetUm":18,"worstUm":{{worst}},"probability":{{probability}}}"""));

    public Told Answer(double minutes, string serial, string answer, double probability = 0.5) => Line(
        minutes, LedgerKinds.Answer, "M1",
        Text($$"""{"requestId":"r","answer":"{{answer}}","machine":"M1","serial":"{{serial}}","operation":"40","feature":"holes","budgetUm":18,"worstUm":20,"probability":{{probability}}}"""));

    public Told Measured(double minutes, string serial, double measured, double predicted = 20, double u = 2) =>
        Take(LedgerLines.Of(new HoldScored(At(minutes), new HoldScore(
            "M1", serial, "40", "holes", predicted, u, measured, 18, HoldScore.Judge(predicted, u, measured, 18), "reprobe")))!);

    public Told Cut(double minutes, string serial) =>
        Take(LedgerLines.Of(new CutMoved(At(minutes), "M1") { Started = true, Serial = serial, Operation = "40" }));

    public Told Inspected(double minutes, params IReadOnlyList<InspectionValue> values)
    {
        foreach (var line in ResultJson.Lines(values, new string('a', 64), At(minutes)))
        {
            Take(line);
        }

        return this;
    }

    public ScoreReport Report(double minutes = 24 * 60) => ScoreReport.Of(History, cell, At(0), At(minutes));

    private Told Line(double minutes, string kind, string machine, string json) => Take(new LedgerLine(At(minutes), kind, machine, json));

    private Told Take(LedgerLine line)
    {
        var kept = shadow ? line with { Json = line.Json[..^1] + ",\"shadow\":true}" } : line;
        if (ScoreLines.Of(kept, cell) is { } fact)
        {
            History.Take(fact);
        }

        return this;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
