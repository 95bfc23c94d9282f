using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /evidence</c> and <c>GET /evidence/{serial}/report</c>: whether temperature caused what inspection found.</summary>
internal static class EvidenceApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/evidence", ListAsync).WithSummary("Each inspected feature with its verdict and numbers; the first question after a new file replays the history and takes a while.");
        api.MapGet("/evidence/{serial}/report", ReportAsync).WithSummary("The report of one serial for the review board; format=json (default), html or pdf.");
    }

    private static Task<Results<Utf8ContentHttpResult, FileContentHttpResult, ProblemHttpResult>> ListAsync(EvidenceBook book, CancellationToken cancellation) =>
        WithAsync(book, data => TypedResults.Text(EvidenceJson.ListToUtf8(data), "application/json"), cancellation);

    private static Task<Results<Utf8ContentHttpResult, FileContentHttpResult, ProblemHttpResult>> ReportAsync(
        string serial, string? format, EvidenceBook book, CancellationToken cancellation) =>
        WithAsync(book, data => Report(data, serial, format ?? "json"), cancellation);

    private static Results<Utf8ContentHttpResult, FileContentHttpResult, ProblemHttpResult> Report(BoardData data, string serial, string format)
    {
        var bytes = format switch
        {
            "json" => SerialReport.Json(data, serial),
            "html" => SerialReport.Html(data, serial),
            "pdf" => SerialReport.Pdf(data, serial),
            _ => [],
        };
        return bytes switch
        {
            null => Problem.NotFound("No inspected value of this serial belongs to a piece of work that is known here. GET /api/v1/evidence lists what is known."),
            [] => Problem.BadRequest("format: json, html or pdf is allowed."),
            _ when format == "pdf" => TypedResults.File(bytes, "application/pdf", "evidence.pdf"),
            _ => TypedResults.Text(bytes, format == "html" ? "text/html; charset=utf-8" : "application/json"),
        };
    }

    private static async Task<Results<Utf8ContentHttpResult, FileContentHttpResult, ProblemHttpResult>> WithAsync(
        EvidenceBook book, Func<BoardData, Results<Utf8ContentHttpResult, FileContentHttpResult, ProblemHttpResult>> answer, CancellationToken cancellation)
    {
        try
        {
            return await book.NowAsync(cancellation) is { } data
                ? answer(data)
                : Problem.NotFound("No inspection results of parts that were cut here have come in. POST /api/v1/results takes them.");
        }
        catch (Exception failure) when (failure is StoreUnavailableException or UnreadableFileException or IOException)
        {
            return Problem.Unavailable($"The history could not be read: {failure.Message.TrimEnd('.')}. Ask again later.");
        }
    }
}
