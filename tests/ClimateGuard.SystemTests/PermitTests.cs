using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.SystemTests;

/// <summary>Requests and answers with a real broker, over MQTT 5 and over HTTP.</summary>
public sealed class PermitTests
{
    [Fact]
    public async Task A_request_with_response_topic_and_correlation_data_is_answered_there()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        await Shell.PublishAsync(broker.Port, "cg/hand/machine/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""");
        using var control = new MqttClientFactory().CreateMqttClient();
        var answer = new TaskCompletionSource<MqttApplicationMessage>();
        control.ApplicationMessageReceivedAsync += received =>
        {
            answer.TrySetResult(received.ApplicationMessage);
            return Task.CompletedTask;
        };
        await control.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).WithProtocolVersion(MqttProtocolVersion.V500).Build());
        await control.SubscribeAsync("control/m1/answers");

        await control.PublishAsync(Request("control/m1/answers", "42", $$"""{"serial":"S1","part":"DISC","operation":"40","requestId":"r1","sentAt":{{Now()}}}"""));
        var received = await answer.Task.WaitAsync(TimeSpan.FromSeconds(5));

        var said = JsonSerializer.Deserialize<JsonElement>(Encoding.UTF8.GetString(received.Payload));
        Assert.Equal("42", Encoding.UTF8.GetString(received.CorrelationData));
        Assert.Equal("GO", said.GetProperty("answer").GetString());
        Assert.False(string.IsNullOrEmpty(said.GetProperty("permitId").GetString()));
        Assert.False(received.Retain);
        Assert.InRange(received.MessageExpiryInterval, 1u, 10u);
    }

    [Fact]
    public async Task Without_a_response_topic_the_answer_goes_to_the_machine_s_answer_topic_and_a_hold_says_why()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        await Shell.PublishAsync(broker.Port, "cg/hand/machine/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":28.0,"startU":0.1}""");
        using var answers = Shell.Listen(broker.Port, "cg/hand/machine/M1/permit/answer");
        await Task.Delay(300);

        await Shell.PublishAsync(broker.Port, "cg/hand/machine/M1/permit/request", """{"serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""");

        var (_, said) = await answers.UntilAsync(message => message.GetProperty("requestId").GetString() == "r1", "for r1");
        Assert.Equal("HOLD", said.GetProperty("answer").GetString());
        Assert.InRange(said.GetProperty("text").GetString()!.Length, 10, 60);
        Assert.Equal(JsonValueKind.Null, said.GetProperty("permitId").ValueKind);
    }

    [Fact]
    public async Task A_request_without_operation_is_answered_unknown_and_kept()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        using var answers = Shell.Listen(broker.Port, "cg/hand/machine/M1/permit/answer");
        await Task.Delay(300);

        await Shell.PublishAsync(broker.Port, "cg/hand/machine/M1/permit/request", """{"serial":"S1","part":"DISC","requestId":"r1"}""");

        var (_, said) = await answers.UntilAsync(_ => true, "at all");
        Assert.Equal(("UNKNOWN", "REQUEST_UNREADABLE"), (said.GetProperty("answer").GetString(), said.GetProperty("reasonCode").GetString()));
        Assert.Contains("operation", said.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_permit_line_is_one_only_while_a_permit_holds_and_the_heartbeat_counts()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        using var line = Shell.Listen(broker.Port, "cg/hand/machine/M1/permit/line");
        using var heartbeat = Shell.Listen(broker.Port, "cg/hand/machine/M1/permit/heartbeat");
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""");
        await line.UntilAsync(message => message.GetInt32() == 0, "0");

        await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""");
        await line.UntilAsync(message => message.GetInt32() == 1, "1");
        await worker.PostAsync("/api/v1/events", """{"type":"cutStarted","machine":"M1","serial":"S1","operation":"40"}""");
        var taken = line.Lines.Count;
        await Task.Delay(2500);

        Assert.All(line.Lines.Skip(taken + 1), said => Assert.Equal("0", said));
        var beats = heartbeat.Lines.Select(long.Parse).ToArray();
        Assert.Equal(beats.Order(), beats);
        Assert.True(beats.Length >= 3);
    }

    [Fact]
    public async Task Over_http_a_permit_is_asked_for_read_back_and_its_id_cannot_be_used_for_something_else()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":20.0,"startU":0.1}""");

        var (status, said) = await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal("GO", said.GetProperty("answer").GetString());
        var permit = await worker.GetAsync($"/api/v1/permits/{said.GetProperty("permitId").GetString()}");
        Assert.Equal("valid", permit.GetProperty("state").GetString());

        var (conflict, _) = await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"50","requestId":"r1"}""");
        Assert.Equal(HttpStatusCode.Conflict, conflict);
        Assert.Equal(HttpStatusCode.NotFound, (await worker.PostAsync("/api/v1/permits", """{"machine":"M7","serial":"S1","part":"DISC","operation":"40","requestId":"r2"}""")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","requestId":"r3"}""")).Status);
    }

    [Fact]
    public async Task An_override_by_http_needs_two_persons_for_a_critical_part_and_the_inspection_scores_it_once()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = await ReadyWorkerAsync(broker);
        await worker.PostAsync("/api/v1/machines/M1/job", """{"serial":"S1","part":"DISC","operation":"40","startC":28.0,"startU":0.1}""");
        await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r1"}""");
        var until = DateTimeOffset.UtcNow.AddHours(1).ToString("O", System.Globalization.CultureInfo.InvariantCulture);

        var (_, one) = await worker.PostAsync("/api/v1/permits/r1/override", $$"""{"by":"A. Berg","reason":"deadline","until":"{{until}}"}""");
        Assert.False(one.GetProperty("inForce").GetBoolean());
        var (_, two) = await worker.PostAsync("/api/v1/permits/r1/override", $$"""{"by":"C. Dahl","reason":"deadline","until":"{{until}}"}""");
        Assert.True(two.GetProperty("inForce").GetBoolean());

        var (_, said) = await worker.PostAsync("/api/v1/permits", """{"machine":"M1","serial":"S1","part":"DISC","operation":"40","requestId":"r2"}""");
        Assert.Equal("GO_OVERRIDDEN", said.GetProperty("answer").GetString());
        Assert.Equal("bypassed", (await worker.GetAsync("/api/v1/machines/M1/outlook")).GetProperty("level").GetString());

        const string results = "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm\nS1,DISC,40,M1,holes,1,,,10,20\nS1,DISC,40,M1,holes,2,,,,\nS1,DISC,40,M1,holes,3,,71.5,,\n";
        Assert.Equal(HttpStatusCode.BadRequest, (await worker.PostAsync("/api/v1/results", results.Replace("71.5", "71,5", StringComparison.Ordinal))).Status);
        var (_, taken) = await worker.PostAsync("/api/v1/results", results);
        Assert.Equal((2, 1, 0), (taken.GetProperty("values").GetInt32(), taken.GetProperty("overridesScored").GetInt32(), taken.GetProperty("overridesRight").GetInt32()));
        Assert.Equal(HttpStatusCode.Conflict, (await worker.PostAsync("/api/v1/results", results)).Status);
        const string another = results + "S1,DISC,40,M1,holes,4,,12.0,,\n";
        Assert.Equal(0, (await worker.PostAsync("/api/v1/results", another)).Body.GetProperty("overridesScored").GetInt32());
        var score = (await worker.GetAsync("/api/v1/ledger?kind=score"))[0].GetProperty("content");
        Assert.Equal(("wrong", "holes"), (score.GetProperty("override").GetString(), score.GetProperty("outOfTolerance")[0].GetString()));
    }

    internal static async Task<WorkerProcess> ReadyWorkerAsync(MosquittoBroker broker)
    {
        var worker = new WorkerProcess();
        worker.StartRun(broker.Port, HandCell.Write());
        await worker.UntilReadyAsync();
        await Shell.PublishAsync(broker.Port, "cg/hand/reading/air/a1", "20.0");
        var patience = Stopwatch.StartNew();
        while ((await worker.GetAsync("/api/v1/sensors"))[0].GetProperty("value").ValueKind == JsonValueKind.Null)
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(10), "the reading did not arrive");
            await Task.Delay(20);
        }

        return worker;
    }

    private static MqttApplicationMessage Request(string responseTopic, string correlation, string payload) => new MqttApplicationMessageBuilder()
        .WithTopic("cg/hand/machine/M1/permit/request")
        .WithPayload(payload)
        .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
        .WithResponseTopic(responseTopic)
        .WithCorrelationData(Encoding.UTF8.GetBytes(correlation))
        .WithMessageExpiryInterval(10)
        .Build();

    private static long Now() => DateTimeOffset.UtcNow.ToUnixTimeMilliseconds();
}
