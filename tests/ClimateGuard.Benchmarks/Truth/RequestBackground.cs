using System.Globalization;
using ClimateGuard.Simulator;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>What the product took part and scale to be at a request, what they were, and what the feature it named truly became.</summary>
internal sealed record RequestBackground(Outlook Said, TruthMinute Minute, CutTruth Feature)
{
    public const string Header = "week,time,machine,part,answer,reason,feature,probability,saidUm,uUm,budgetUm,trueUm,worstTrueShare,partC,partU,truePartC,scaleC,trueScaleC,driftUm,lowMin,medianMin,highMin,trueSafeMin,because";

    public static RequestBackground? Of(TruthLog truth, AskRecord ask, PermitAnswer answer, Outlook? outlook) =>
        outlook is not null && answer.Worst is { } worst
        && truth.At(ask.Machine, ask.Serial, ask.Time) is { } minute
        && truth.Of(ask with { Feature = worst.Feature }) is { } feature
            ? new RequestBackground(outlook, minute, feature)
            : null;

    /// <summary>A line of a table for whoever looks into single requests.</summary>
    public string Row(ScoredRequest request)
    {
        var start = request.Start as SafeAt;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{request.Seed},{request.Ask.Time:ddd HH:mm},{request.Ask.Machine},{request.Ask.Part},{request.Answer.Answer},{request.Answer.ReasonCode},{Feature.Feature},"
            + $"{request.Answer.Worst!.Probability:0.000},{request.Answer.Worst.WorstMicrometres:0.00},{request.Answer.Worst.UMicrometres:0.00},{Feature.BudgetMicrometres:0.0},"
            + $"{Feature.WorstMicrometres:0.00},{request.Truth.Share:0.000},{Said.PartCelsius:0.00},{Said.PartUncertaintyKelvins:0.00},{Minute.PartCelsius:0.00},"
            + $"{Said.ScaleCelsius:0.00},{Minute.ScaleCelsius:0.00},{request.Answer.Worst.DriftMicrometres:0.00},{From(request, start?.Low)},{From(request, start?.Median)},{From(request, start?.High)},{request.TrulySafe?.TotalMinutes:0},\"{Said.Reason}\"");
    }

    private static string From(ScoredRequest request, TimeSpan? start) =>
        start is { } wait ? (request.StartFrom - request.Ask.Time + wait).TotalMinutes.ToString("0", CultureInfo.InvariantCulture) : "";
}
