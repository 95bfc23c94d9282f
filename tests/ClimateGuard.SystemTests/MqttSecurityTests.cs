using System.Diagnostics;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>Passwords and certificates against a real mosquitto.</summary>
public sealed class MqttSecurityTests
{
    private const string TlsListener = """
        allow_anonymous true
        cafile {folder}/shop/ca.pem
        certfile {folder}/shop/broker.pem
        keyfile {folder}/shop/broker.key
        """;

    [Fact]
    public async Task The_right_password_connects_and_the_wrong_one_says_what_to_check()
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker("allow_anonymous false\npassword_file {folder}/passwords");
        var passwords = Path.Combine(broker.Folder, "passwords");
        using (var tool = Process.Start("mosquitto_passwd", ["-c", "-b", passwords, "worker", "s3cret"]))
        {
            await tool.WaitForExitAsync();
        }

        await broker.StartAsync();
        var secret = Path.Combine(broker.Folder, "secret");
        await File.WriteAllTextAsync(secret, "s3cret\n");
        await using (var worker = new WorkerLink(new BrokerSettings { Port = broker.Port, Username = "worker", PasswordFile = secret }))
        {
            await worker.StartAndConnectAsync();
        }

        await using var wrong = new WorkerLink(new BrokerSettings { Port = broker.Port, Username = "worker", Password = "gu3ss" });
        await wrong.Link.StartAsync(CancellationToken.None);
        await wrong.UntilAsync(state => state.LastError is not null, "refused");
        Assert.Contains("does not accept these credentials: check Broker:Username", wrong.Link.State.LastError, StringComparison.Ordinal);
        Assert.DoesNotContain(wrong.Log.Lines, line => line.Contains("gu3ss", StringComparison.Ordinal));
    }

    [Fact]
    public async Task TLS_connects_with_the_certificate_of_the_signer()
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker(TlsListener);
        using var shop = new TestCertificates(broker.Folder, "shop");
        shop.Issue("broker");
        await broker.StartAsync();
        await using (var worker = new WorkerLink(new BrokerSettings { Port = broker.Port, Tls = true, CaFile = shop.CaFile }))
        {
            await worker.StartAndConnectAsync();
        }

        using var stranger = new TestCertificates(broker.Folder, "stranger");
        await RefusedAsync(
            new BrokerSettings { Port = broker.Port, Tls = true, CaFile = stranger.CaFile }, "is not signed by a certificate in Broker:CaFile");
        await RefusedAsync(new BrokerSettings { Port = broker.Port, Tls = true }, "signed by nobody this system trusts: set Broker:CaFile");
        await RefusedAsync(new BrokerSettings { Host = "localhost", Port = broker.Port, Tls = true, CaFile = shop.CaFile }, "is for another name");
    }

    [Fact]
    public async Task An_expired_certificate_of_the_broker_is_named_with_its_day()
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker(TlsListener);
        using var shop = new TestCertificates(broker.Folder, "shop");
        shop.Issue("broker", until: DateTimeOffset.UtcNow.AddDays(-2));
        await broker.StartAsync();
        await RefusedAsync(
            new BrokerSettings { Port = broker.Port, Tls = true, CaFile = shop.CaFile },
            $"the certificate of the broker expired on {DateTimeOffset.UtcNow.AddDays(-2):yyyy-MM-dd}: renew it");
    }

    [Theory]
    [InlineData("worker.pfx", null)]
    [InlineData("worker-both.pem", null)]
    [InlineData("worker.pem", "worker.key")]
    public async Task A_certificate_of_our_own_is_shown_to_a_broker_that_asks_for_it(string certificate, string? key)
    {
        MosquittoBroker.Require();
        await using var broker = new MosquittoBroker(TlsListener + "\nrequire_certificate true");
        using var shop = new TestCertificates(broker.Folder, "shop");
        shop.Issue("broker");
        shop.Issue("worker");
        await broker.StartAsync();
        var settings = new BrokerSettings
        {
            Port = broker.Port,
            Tls = true,
            CaFile = shop.CaFile,
            ClientCertificate = Path.Combine(shop.Folder, certificate),
            ClientKey = key is null ? null : Path.Combine(shop.Folder, key),
        };
        Assert.Empty(settings.Problems());
        await using var worker = new WorkerLink(settings);
        await worker.StartAndConnectAsync();
    }

    private static async Task RefusedAsync(BrokerSettings settings, string sentence)
    {
        await using var worker = new WorkerLink(settings);
        await worker.Link.StartAsync(CancellationToken.None);
        await worker.UntilAsync(state => state.LastError is not null, "refused");
        Assert.Contains(sentence, worker.Link.State.LastError, StringComparison.Ordinal);
    }
}
