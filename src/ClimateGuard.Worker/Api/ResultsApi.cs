using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /results</c>: inspection results as QIF or CSV, the whole file or nothing, and each file once. Its values are lines of the ledger, for
/// scoreboard and evidence; they score the overrides they belong to, once for each override. With <c>preview=true</c> nothing is kept.
/// </summary>
internal static class ResultsApi
{
    private const int MostShown = 20;

    public static void Map(RouteGroupBuilder api) => api.MapPost("/results", TakeAsync)
        .WithMetadata(new RequestSizeLimitAttribute(InspectionFile.MostBytes))
        .WithSummary("Inspection results as QIF 3.0 or CSV, each file once; device names a saved mapping, preview=true keeps nothing and says what would be kept.");

    private static async Task<Results<Ok<Taken>, Ok<Preview>, ProblemHttpResult>> TakeAsync(
        HttpRequest request, string? device, bool? preview, ResultsDesk desk, CancellationToken cancellation)
    {
        var body = await Body.ReadAsync(request, cancellation);
        return await desk.TakeAsync(body, device, preview == true, cancellation) switch
        {
            ResultsTaken taken => TypedResults.Ok(new Taken(taken.Values, taken.OverridesScored, taken.OverridesRight)
            {
                NotMeasured = taken.Import.NotMeasured, Notes = taken.Import.Notes, Unknown = taken.Unknown,
            }),
            ResultsPreview shown => TypedResults.Ok(new Preview(
                shown.Import.Form, shown.Values.Count, shown.Import.NotMeasured, shown.Import.Notes, shown.Unknown, [.. shown.Values.Take(MostShown).Select(Shown)])),
            ResultsRefused { CameBefore: true } refused => Problem.Conflict(Why(refused)),
            ResultsRefused refused => Problem.BadRequest(Why(refused)),
            _ => throw new InvalidOperationException("The desk answered with something that is no answer."),
        };
    }

    private static string Why(ResultsRefused refused) => $"{string.Join("; ", refused.Problems)}. Nothing was imported.";

    private static ShownValue Shown(InspectionValue value) => new(
        value.Serial, value.Part, value.Operation, value.Machine, value.Feature.Id, value.Hole, value.DeviationMicrometres, value.DxMicrometres, value.DyMicrometres, value.MeasuredAt,
        value.Device, CompensationWords.Word(value.Compensation), value.InTolerance, value.Line);

    /// <summary>What was taken in.</summary>
    internal sealed record Taken(int Values, int OverridesScored, int OverridesRight)
    {
        public int NotMeasured { get; init; }

        public IReadOnlyList<string> Notes { get; init; } = [];

        public IReadOnlyList<string> Unknown { get; init; } = [];
    }

    /// <summary>What would be taken in; nothing was kept.</summary>
    internal sealed record Preview(string Form, int Values, int NotMeasured, IReadOnlyList<string> Notes, IReadOnlyList<string> Unknown, IReadOnlyList<ShownValue> First);

    /// <summary>One value as it was understood.</summary>
    internal sealed record ShownValue(
        string Serial, string Part, string Operation, string Machine, string Feature, int? Hole, double DeviationUm, double? DxUm, double? DyUm, DateTimeOffset? MeasuredAt, string Device,
        string Compensation, bool InTolerance, int Line);
}
