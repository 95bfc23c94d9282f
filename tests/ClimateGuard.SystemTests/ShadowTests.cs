using System.Net;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>In shadow mode everything is decided and kept, and nothing is sent to machines.</summary>
public sealed class ShadowTests
{
    private const string Job = """{"serial":"S1","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""";
    private const string Request = """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""";

    [Fact]
    public async Task Nothing_goes_to_a_machine_and_the_ledger_says_what_would_have()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port, "#");
        await using var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write(), more: ("Mode", "shadow"));
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.0");
        await worker.PostAsync("/api/v1/machines/M1/job", Job);
        await bystander.SendAsync("cg/hand/machine/M1/permit/request", Request);
        var (status, said) = await worker.PostAsync("/api/v1/permits", Request.Replace("r1", "r2", StringComparison.Ordinal));
        await Task.Delay(2500);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, status);
        Assert.Contains("shadow mode", said.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Equal(
            ["cg/hand/machine/M1/permit/request", "cg/hand/reading/air/a1", "cg/hand/worker/status"],
            bystander.Seen.Select(message => message.Topic).Where(topic => topic != "cg/hand/alert").Distinct().Order(StringComparer.Ordinal));
        var ledger = (await worker.GetAsync("/api/v1/ledger")).GetRawText();
        Assert.Contains("\"requestId\":\"r1\"", ledger, StringComparison.Ordinal);
        Assert.Contains("\"shadow\":true", ledger, StringComparison.Ordinal);
        Assert.Contains("Shadow: nothing is sent to machines", await worker.Http.GetStringAsync(new Uri("/", UriKind.Relative)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_permit_that_only_the_shadow_gave_does_not_hold_when_the_worker_goes_live()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var bystander = await MqttBystander.ConnectAsync(broker.Port);
        await using var worker = new WorkerProcess();
        var plant = HandCell.Write();
        worker.StartRun(broker.Port, plant, more: ("Mode", "shadow"));
        await worker.UntilReadyAsync();
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.0");
        await worker.PostAsync("/api/v1/machines/M1/job", Job);
        await worker.PostAsync("/api/v1/permits", Request);
        await worker.KillAsync();
        using var line = Shell.Listen(broker.Port, "cg/hand/machine/M1/permit/line");
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();
        await Task.Delay(2500);

        Assert.Equal("S1", (await worker.GetAsync("/api/v1/machines/M1/outlook")).GetProperty("serial").GetString());
        Assert.NotEmpty(line.Lines);
        Assert.All(line.Lines, told => Assert.Equal("0", told));
    }

    [Fact]
    public async Task A_mode_that_does_not_exist_is_refused()
    {
        var (exitCode, _, errors) = await WorkerProcess.RunToEndAsync(new() { ["CLIMATEGUARD_Mode"] = "ghost" }, ["run"]);
        Assert.Equal((2, true), (exitCode, errors.Contains("Mode ghost: live is allowed, or shadow", StringComparison.Ordinal)));
    }
}
