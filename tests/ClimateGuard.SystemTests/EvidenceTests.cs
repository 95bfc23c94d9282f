using System.Net;
using System.Text;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>Inspection results come in over HTTP, are looked at before they are kept, and become evidence with a report.</summary>
public sealed class EvidenceTests
{
    [Fact]
    public async Task A_mapped_file_is_previewed_kept_once_weighed_and_reported_in_three_forms()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port);
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.0");
        await HandInspection.CutAsync(worker, bystander, "S1");
        Assert.Equal(HttpStatusCode.NotFound, (await worker.Http.GetAsync(new Uri(worker.Address, "/api/v1/evidence"))).StatusCode);

        var file = HandInspection.Holes("S1") + HandInspection.Holes("S7").Split('\n', 2)[1];
        Assert.Contains("saved are: ", await DetailAsync(worker, "/api/v1/results?device=CMM-2", file, HttpStatusCode.BadRequest), StringComparison.Ordinal);
        await SaveAsync(worker, "CMM-2", HandInspection.Mapping, HttpStatusCode.NoContent);
        await SaveAsync(worker, "CMM-3", HandInspection.Mapping, HttpStatusCode.BadRequest);

        var preview = await PostAsync(worker, "/api/v1/results?device=CMM-2&preview=true", file, HttpStatusCode.OK);
        Assert.Equal(24, preview.GetProperty("values").GetInt32());
        Assert.Contains("serial S7 is not known", preview.GetProperty("unknown")[0].GetString(), StringComparison.Ordinal);
        Assert.Equal("M1", preview.GetProperty("first")[0].GetProperty("machine").GetString());
        Assert.Contains("serial S7 is not known", await DetailAsync(worker, "/api/v1/results?device=CMM-2", file, HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await worker.Http.GetAsync(new Uri(worker.Address, "/api/v1/evidence"))).StatusCode);

        await PostAsync(worker, "/api/v1/results?device=CMM-2", HandInspection.Holes("S1"), HttpStatusCode.OK);
        await DetailAsync(worker, "/api/v1/results?device=CMM-2", HandInspection.Holes("S1"), HttpStatusCode.Conflict);
        var one = Assert.Single((await worker.GetAsync("/api/v1/evidence")).GetProperty("features").EnumerateArray());
        Assert.Equal(("S1", "holes"), (one.GetProperty("serial").GetString(), one.GetProperty("feature").GetString()));
        Assert.InRange(one.GetProperty("level").GetInt32(), 0, 2);
        await ReportsAsync(worker);
    }

    [Theory]
    [InlineData("<QIFDocument xmlns=\"http://qifstandards.org/xsd/qif3\" versionQIF=\"3.0.0\"/>", "a unit is never assumed")]
    [InlineData("<!DOCTYPE x [<!ENTITY a \"b\">]><QIFDocument/>", "a document type is not allowed")]
    [InlineData("serial,part\nS1,DISC\n", "missing operation, machine, feature, deviationUm")]
    public async Task A_broken_file_imports_nothing_and_says_where(string file, string said)
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();

        var detail = await DetailAsync(worker, "/api/v1/results", file, HttpStatusCode.BadRequest);
        Assert.Contains(said, detail, StringComparison.Ordinal);
        Assert.StartsWith("line 1:", detail, StringComparison.Ordinal);
        Assert.EndsWith("Nothing was imported.", detail, StringComparison.Ordinal);
    }

    private static async Task ReportsAsync(WorkerProcess worker)
    {
        foreach (var (format, type, begin) in new[] { ("json", "application/json", "{"), ("html", "text/html", "<!DOCTYPE html>"), ("pdf", "application/pdf", "%PDF-") })
        {
            using var answer = await worker.Http.GetAsync(new Uri(worker.Address, $"/api/v1/evidence/S1/report?format={format}"));
            var bytes = await answer.Content.ReadAsByteArrayAsync();
            Assert.Equal((HttpStatusCode.OK, type), (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
            Assert.StartsWith(begin, Encoding.UTF8.GetString(bytes.AsSpan(0, 40)), StringComparison.Ordinal);
            Assert.Equal(bytes, await worker.Http.GetByteArrayAsync(new Uri(worker.Address, $"/api/v1/evidence/S1/report?format={format}")));
        }

        Assert.Equal(HttpStatusCode.BadRequest, (await worker.Http.GetAsync(new Uri(worker.Address, "/api/v1/evidence/S1/report?format=doc"))).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await worker.Http.GetAsync(new Uri(worker.Address, "/api/v1/evidence/S9/report"))).StatusCode);
    }

    private static async Task SaveAsync(WorkerProcess worker, string device, string mapping, HttpStatusCode status)
    {
        using var content = new StringContent(mapping, Encoding.UTF8, "application/json");
        using var answer = await worker.Http.PutAsync(new Uri(worker.Address, $"/api/v1/results/devices/{device}"), content);
        Assert.Equal(status, answer.StatusCode);
    }

    private static async Task<string> DetailAsync(WorkerProcess worker, string path, string file, HttpStatusCode status) =>
        (await PostAsync(worker, path, file, status)).GetProperty("detail").GetString()!;

    private static async Task<JsonElement> PostAsync(WorkerProcess worker, string path, string file, HttpStatusCode status)
    {
        using var content = new StringContent(file, Encoding.UTF8, "text/plain");
        using var answer = await worker.Http.PostAsync(new Uri(worker.Address, path), content);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == status, $"{answer.StatusCode}: {text}");
        return JsonSerializer.Deserialize<JsonElement>(text);
    }
}
