using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests;

/// <summary>The MQTT edge against a real mosquitto.</summary>
public sealed class MqttEdgeTests
{
    private const long SomeTime = 1_768_032_000_000;

    [Fact]
    public async Task Readings_and_events_arrive_decoded_and_in_order()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerLink(WorkerLink.Settings(broker.Port));
        await worker.StartAndConnectAsync();
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);

        await sensor.SendAsync("cg/cell4/reading/air/a1", $"{{\"t\":{SomeTime},\"v\":20.137,\"u\":\"C\",\"q\":7}}");
        await sensor.SendAsync("cg/cell4/reading/m1/coolant", "68");
        await sensor.SendAsync("hall/doors/roller", "open");
        await sensor.SendAsync("cg/cell4/machine/M1/job", "{\"serial\":\"S1\",\"part\":\"CP-100\",\"operation\":\"40\"}");
        await sensor.SendAsync("cg/cell4/event/door", "{\"sensor\":\"door\",\"open\":true}");
        await sensor.SendAsync("cg/cell4/reading/air/a2", "20.1");

        var arrivals = await worker.NextAsync(6);
        Assert.Equal(new Reading(0, SomeTime, 20.137, 7), arrivals[0].Reading);
        Assert.Equal((1, 20.0, true), (arrivals[1].Reading.Sensor, arrivals[1].Reading.Value, arrivals[1].TimeIsArrival));
        Assert.Equal((2, 1.0), (arrivals[2].Reading.Sensor, arrivals[2].Reading.Value));
        Assert.Equal("S1", Assert.IsType<JobLoaded>(arrivals[3].Event).Serial);
        Assert.True(Assert.IsType<DoorMoved>(arrivals[4].Event).Open);
        Assert.Contains("unknown sensor \"air/a2\"", arrivals[5].Unreadable!.Reason, StringComparison.Ordinal);
        Assert.Contains("did you mean air/a1?", arrivals[5].Unreadable!.Reason, StringComparison.Ordinal);
        Assert.All(arrivals, arrival => Assert.False(arrival.Retained));
    }

    [Fact]
    public async Task What_is_not_acknowledged_comes_again_and_is_stored_once()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var wire = new CuttableWire(broker.Port);
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);
        var store = new Dictionary<(int, long), double>();
        var deliveries = 0;
        await using (var first = new WorkerLink(WorkerLink.Settings(wire.Port)))
        {
            await first.StartAndConnectAsync();
            await SendAsync(sensor, 0, 8);
            var held = await first.NextAsync(8);
            await first.AcknowledgeAsync([.. held.Take(3)]);
            Keep(held);

            // Acknowledgements need their way through the wire before it is cut.
            await Task.Delay(200);
            wire.Cut();
            await first.UntilAsync(state => !state.Connected, "disconnected");
            await SendAsync(sensor, 8, 4);

            // The client is gone for good, with five messages that it never acknowledged; these come too late and must do nothing.
            await first.AcknowledgeAsync([.. held.Skip(3)]);
        }

        await using (var second = new WorkerLink(WorkerLink.Settings(broker.Port)))
        {
            await second.StartAndConnectAsync();
            var again = await second.NextAsync(9);
            Assert.Equal([3, 4, 5, 6, 7, 8, 9, 10, 11], again.Select(arrival => arrival.Reading.EpochMilliseconds - SomeTime));
            Keep(again);
            await second.AcknowledgeAsync([.. again]);
        }

        Assert.Equal((12, 17), (store.Count, deliveries));
        await using var third = new WorkerLink(WorkerLink.Settings(broker.Port));
        await third.StartAndConnectAsync();
        await SendAsync(sensor, 99, 1);
        Assert.Equal(99, (await third.NextAsync()).Reading.EpochMilliseconds - SomeTime);

        void Keep(IEnumerable<Arrival> arrivals)
        {
            foreach (var arrival in arrivals)
            {
                store[(arrival.Reading.Sensor, arrival.Reading.EpochMilliseconds)] = arrival.Reading.Value;
                deliveries++;
            }
        }
    }

    [Fact]
    public async Task A_receipt_of_an_earlier_connection_acknowledges_nothing_on_the_next()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var wire = new CuttableWire(broker.Port);
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);
        var settings = WorkerLink.Settings(wire.Port);
        await using (var worker = new WorkerLink(settings))
        {
            await worker.StartAndConnectAsync();
            await SendAsync(sensor, 0, 3);
            var held = await worker.NextAsync(3);
            wire.Cut();
            await worker.UntilAsync(state => !state.Connected, "disconnected");
            wire.Mend();
            await worker.UntilAsync(state => state.Connected, "connected again");
            var again = await worker.NextAsync(3);
            Assert.Equal(held.Select(arrival => arrival.Reading), again.Select(arrival => arrival.Reading));

            // The old receipts bear the same packet identifiers as the messages that just came again.
            await worker.AcknowledgeAsync([.. held]);
            await Task.Delay(200);
        }

        await using var later = new WorkerLink(settings);
        await later.StartAndConnectAsync();
        Assert.Equal([0, 1, 2], (await later.NextAsync(3)).Select(arrival => arrival.Reading.EpochMilliseconds - SomeTime));
    }

    [Fact]
    public async Task A_missing_broker_is_one_clear_line_and_the_worker_connects_when_it_comes()
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker();
        await using var worker = new WorkerLink(WorkerLink.Settings(broker.Port));
        await worker.Link.StartAsync(CancellationToken.None);
        await worker.UntilAsync(state => state.LastError is not null, "failed");
        await Task.Delay(1500);
        var line = Assert.Single(worker.Log.Lines, line => line.StartsWith("Warning", StringComparison.Ordinal));
        Assert.Contains($"127.0.0.1:{broker.Port}: nothing listens there: check that the broker is started", line, StringComparison.Ordinal);

        await broker.StartAsync();
        await worker.UntilAsync(state => state.Connected, "connected");
    }

    [Fact]
    public async Task A_restarted_broker_keeps_the_session_and_what_is_not_acknowledged()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerLink(WorkerLink.Settings(broker.Port));
        await worker.StartAndConnectAsync();
        await using (var sensor = await MqttBystander.ConnectAsync(broker.Port))
        {
            await SendAsync(sensor, 0, 2);
            await worker.NextAsync(2);
        }

        await broker.RestartAsync();
        await using (var sensor = await MqttBystander.ConnectAsync(broker.Port))
        {
            await SendAsync(sensor, 2, 1);
        }

        var after = await worker.NextAsync(3);
        Assert.Equal([0, 1, 2], after.Select(arrival => arrival.Reading.EpochMilliseconds - SomeTime));
        await worker.UntilAsync(state => state.Connected, "connected again");
        Assert.Contains(worker.Log.Lines, line => line.Contains("the broker kept our session", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_broker_tells_offline_when_the_worker_dies_and_the_worker_when_it_leaves()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var wire = new CuttableWire(broker.Port);
        await using var screen = await MqttBystander.ConnectAsync(broker.Port, "cg/cell4/worker/status");
        await using (var worker = new WorkerLink(WorkerLink.Settings(wire.Port)))
        {
            await worker.StartAndConnectAsync();
            var online = await screen.WaitForAsync(seen => seen.Payload.Contains("\"online\"", StringComparison.Ordinal), "online");
            Assert.Contains("\"version\":\"0.1.0\",\"configVersion\":\"plant-1\",\"since\":\"20", online.Payload, StringComparison.Ordinal);
            wire.Cut();
            await screen.WaitForAsync(seen => seen.Payload.Contains("\"since\":null", StringComparison.Ordinal), "the last will");
            wire.Mend();
            screen.Forget();
            await screen.WaitForAsync(seen => seen.Payload.Contains("\"online\"", StringComparison.Ordinal), "online again");
            screen.Forget();
        }

        await screen.WaitForAsync(
            seen => seen.Payload.Contains("{\"state\":\"offline\"", StringComparison.Ordinal)
                && seen.Payload.Contains("\"since\":\"20", StringComparison.Ordinal),
            "the goodbye");
    }

    [Fact]
    public async Task The_newest_outlook_of_each_machine_is_retained_also_when_it_was_decided_while_disconnected()
    {
        MosquittoBroker.Require();
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var wire = new CuttableWire(broker.Port);
        wire.Cut();
        await using var worker = new WorkerLink(WorkerLink.Settings(wire.Port));
        await worker.Link.StartAsync(CancellationToken.None);
        await worker.Outlooks.TellAsync(
            [Issued("M1", 1), Issued("M2", 5), Issued("M1", 2), Raised("a", false), Raised("b", false), Raised("a", true)],
            CancellationToken.None);
        await using var early = await MqttBystander.ConnectAsync(broker.Port, "cg/cell4/#");
        wire.Mend();
        await worker.UntilAsync(state => state.Connected, "connected");
        await early.WaitForAsync(seen => seen.Topic == "cg/cell4/machine/M2/outlook", "the outlook of M2");
        await worker.Outlooks.TellAsync([Issued("M1", 3)], CancellationToken.None);
        await early.WaitForAsync(seen => seen.Payload.Contains("\"seq\":3", StringComparison.Ordinal), "outlook 3");
        await early.WaitForAsync(seen => seen.Payload.Contains("\"id\":\"a\"", StringComparison.Ordinal), "alert a");
        Assert.DoesNotContain(early.Seen, seen => seen.Payload.Contains("\"seq\":1", StringComparison.Ordinal));
        Assert.Equal(["b", "a"], early.Seen.Where(seen => seen.Topic == "cg/cell4/alert").Select(seen => seen.Payload.Contains("\"id\":\"a\"", StringComparison.Ordinal) ? "a" : "b"));

        await using var late = await MqttBystander.ConnectAsync(broker.Port, "cg/cell4/#");
        var outlook = await late.WaitForAsync(seen => seen.Topic == "cg/cell4/machine/M1/outlook", "the retained outlook");
        Assert.True(outlook.Retained);
        Assert.Contains("\"seq\":3", outlook.Payload, StringComparison.Ordinal);
        Assert.DoesNotContain(late.Seen, seen => seen.Topic == "cg/cell4/alert");
    }

    [Fact]
    public async Task A_huge_payload_is_kept_away_and_a_too_large_one_is_refused_by_its_size()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerLink(WorkerLink.Settings(broker.Port));
        await worker.StartAndConnectAsync();
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);
        await sensor.SendAsync("cg/cell4/reading/air/a1", new byte[10_000_000]);
        await sensor.SendAsync("cg/cell4/reading/air/a1", new byte[100_000]);
        await sensor.SendAsync("cg/cell4/reading/air/a1", "20.1");
        var arrivals = await worker.NextAsync(2);
        Assert.Equal("the payload has 100000 bytes; at most 65536 are read", arrivals[0].Unreadable!.Reason);
        Assert.Equal(200, arrivals[0].Unreadable!.PayloadStart.Length);
        Assert.Equal(20.1, arrivals[1].Reading.Value);
        Assert.True(worker.Link.State.Connected);
    }

    [Fact]
    public async Task A_retained_reading_is_marked_and_does_not_come_again_with_each_connection()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var wire = new CuttableWire(broker.Port);
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);
        await sensor.SendAsync("cg/cell4/reading/air/a1", "20.1", retain: true);
        await using var worker = new WorkerLink(WorkerLink.Settings(wire.Port));
        await worker.StartAndConnectAsync();
        var first = await worker.NextAsync();
        Assert.True(first.Retained);
        await worker.AcknowledgeAsync(first);
        await Task.Delay(200);
        wire.Cut();
        await worker.UntilAsync(state => !state.Connected, "disconnected");
        wire.Mend();
        await worker.UntilAsync(state => state.Connected, "connected again");
        await sensor.SendAsync("cg/cell4/reading/air/a1", "20.2");
        var next = await worker.NextAsync();
        Assert.Equal((20.2, false), (next.Reading.Value, next.Retained));
    }

    [Fact]
    public async Task The_shipped_mosquitto_configuration_loses_nothing_of_a_burst_to_a_worker_that_is_away()
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker();
        var shipped = await File.ReadAllTextAsync(ShippedConfiguration());
        broker.WholeConfig = shipped
            .Replace("listener 1883 127.0.0.1", $"listener {broker.Port} 127.0.0.1\nuser root", StringComparison.Ordinal)
            .Replace("/var/lib/mosquitto/", broker.Folder + "/", StringComparison.Ordinal);
        await broker.StartAsync();
        await using (var worker = new WorkerLink(WorkerLink.Settings(broker.Port)))
        {
            await worker.StartAndConnectAsync();
        }

        // Three times the 1000 messages that mosquitto queues unless told otherwise.
        await using var sensor = await MqttBystander.ConnectAsync(broker.Port);
        await SendAsync(sensor, 0, 3000);
        await using var back = new WorkerLink(WorkerLink.Settings(broker.Port));
        await back.StartAndConnectAsync();
        Assert.Equal(
            Enumerable.Range(0, 3000).Select(i => (long)i), (await back.NextAsync(3000)).Select(arrival => arrival.Reading.EpochMilliseconds - SomeTime));
    }

    [Fact]
    public async Task A_worker_with_the_same_client_id_is_named_as_the_cause()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var first = new WorkerLink(WorkerLink.Settings(broker.Port));
        await first.StartAndConnectAsync();
        await using var other = await MqttBystander.ConnectAsync(broker.Port, null, options => options.WithClientId("climateguard-cell4"));
        await first.UntilAsync(
            state => state.LastError?.Contains("another client took the client id \"climateguard-cell4\"", StringComparison.Ordinal) == true,
            "told why");
    }

    private static string ShippedConfiguration()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ClimateGuard.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("ClimateGuard.sln is not above the test program");
        }

        return Path.Combine(folder.FullName, "deploy", "mosquitto", "mosquitto.conf");
    }

    private static async Task SendAsync(MqttBystander sensor, int first, int count)
    {
        for (var i = first; i < first + count; i++)
        {
            await sensor.SendAsync("cg/cell4/reading/air/a1", $"{{\"t\":{SomeTime + i},\"v\":20.1}}");
        }
    }

    private static OutlookIssued Issued(string machine, long seq) => new(
        DateTimeOffset.UnixEpoch,
        new Outlook
        {
            Machine = machine,
            Level = Level.Hold,
            Reason = "too cold",
            Action = "wait",
            Seq = seq,
            IssuedAt = DateTimeOffset.UnixEpoch,
            ValidUntil = DateTimeOffset.UnixEpoch,
        },
        true);

    private static AlertRaised Raised(string id, bool cleared) =>
        new(DateTimeOffset.UnixEpoch, new Alert(id, "M1", "hold", "text", "action", cleared));
}
