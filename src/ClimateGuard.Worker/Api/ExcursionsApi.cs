using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Http.HttpResults;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /excursions?from&amp;to</c>: when the air of a zone was outside its band, how far, and which jobs were there.</summary>
internal static class ExcursionsApi
{
    private const int MostLines = 5_000;
    private const int Page = 1_000;
    private static readonly TimeSpan UsualSpan = TimeSpan.FromDays(30);

    public static void Map(RouteGroupBuilder api) => api.MapGet("/excursions", ReadAsync)
        .WithSummary("Excursions that touch [from, to), newest first, without them of the last 30 days; and how the air of each zone is being kept.");

    private static async Task<Results<Utf8ContentHttpResult, ProblemHttpResult>> ReadAsync(
        string? from, string? to, CellLoop loop, ILedgerStore ledger, CancellationToken cancellation)
    {
        var snapshot = loop.Snapshot;
        var end = to is null ? snapshot.Time.AddSeconds(1) : TimeInQuery.Of(to);
        var begin = from is null ? end - UsualSpan : TimeInQuery.Of(from);
        if (begin is not { } first || end is not { } last || first >= last)
        {
            return Problem.BadRequest($"from={from}, to={to}: two times, from before to, {Rfc3339.Allowed}.");
        }

        var known = new Dictionary<(string Zone, DateTimeOffset Begin), ZoneExcursion>();
        foreach (var lasting in snapshot.Air.Zones.Select(zone => zone.Excursion).OfType<ZoneExcursion>()) known.TryAdd((lasting.Zone, lasting.Begin), lasting);
        var leftOff = await ReadLinesAsync(ledger, first, known, cancellation);
        var touching = known.Values.Where(e => e.Begin < last && (e.End ?? snapshot.Time) >= first)
            .OrderByDescending(e => e.Begin).ThenBy(e => e.Zone, StringComparer.Ordinal);
        return TypedResults.Text(AirJson.Excursions([.. touching], snapshot.Air.Zones, leftOff), "application/json");
    }

    // The newest line of an excursion says all of it, so the first that is met on the way back counts.
    private static async Task<bool> ReadLinesAsync(
        ILedgerStore ledger, DateTimeOffset from, Dictionary<(string Zone, DateTimeOffset Begin), ZoneExcursion> known, CancellationToken cancellation)
    {
        var before = long.MaxValue;
        for (var read = 0; read < MostLines; read += Page)
        {
            var page = await ledger.ReadBackAsync(LedgerKinds.Excursion, null, before, Page, cancellation);
            foreach (var excursion in page.Select(entry => FindingLines.Excursion(entry.Line)).OfType<ZoneExcursion>())
                known.TryAdd((excursion.Zone, excursion.Begin), excursion);
            if (page.Count < Page || page[^1].Line.Time < from) return false;
            before = page[^1].Seq;
        }

        return true;
    }
}
