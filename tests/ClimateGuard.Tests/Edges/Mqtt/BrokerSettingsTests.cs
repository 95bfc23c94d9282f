using ClimateGuard.Edges.Mqtt;
using Microsoft.Extensions.Configuration;

namespace ClimateGuard.Tests.Edges.Mqtt;

public sealed class BrokerSettingsTests
{
    [Fact]
    public void Without_settings_the_broker_is_on_this_machine()
    {
        var settings = BrokerSettings.From(new ConfigurationBuilder().Build());
        Assert.Equal(("127.0.0.1", 1883, "climateguard-cell4", 3600), (settings.Host, settings.Port, settings.ClientIdFor("cell4"), settings.SessionExpirySeconds));
        Assert.Empty(settings.Problems());
    }

    [Fact]
    public void The_section_Broker_is_read()
    {
        var settings = BrokerSettings.From(Configuration(("Broker:Host", "broker.shop"), ("Broker:Port", "8883"), ("Broker:ReadingFilters:0", "a/{sensor}")));
        Assert.Equal(("broker.shop", 8883, "a/{sensor}"), (settings.Host, settings.Port, Assert.Single(settings.ReadingFilters)));
    }

    [Fact]
    public void Text_for_a_port_is_named() => Assert.Contains(
        "Broker:Port",
        Assert.Throws<InvalidOperationException>(() => BrokerSettings.From(Configuration(("Broker:Port", "mqtt")))).Message,
        StringComparison.Ordinal);

    [Fact]
    public void The_text_form_holds_no_password() =>
        Assert.DoesNotContain("s3cret", new BrokerSettings { Username = "u", Password = "s3cret" }.ToString(), StringComparison.Ordinal);

    public static TheoryData<BrokerSettings, string> Wrong => new()
    {
        { new() { Host = " " }, "Broker:Host is empty; the name or address of the broker is needed" },
        { new() { Port = 0 }, "Broker:Port is 0; 1 to 65535 is allowed" },
        { new() { SessionExpirySeconds = -1 }, "Broker:SessionExpirySeconds is -1; 0 to 604800" },
        { new() { ReceiveMaximum = 70_000 }, "Broker:ReceiveMaximum is 70000; 1 to 65535" },
        { new() { Username = "u", Password = "a", PasswordFile = "/etc/hostname" }, "Broker:Password and Broker:PasswordFile are both set" },
        { new() { Password = "a" }, "Broker:Username is missing although a password is set" },
        { new() { Username = "u", PasswordFile = "/nowhere/pw" }, "Broker:PasswordFile is \"/nowhere/pw\", which does not exist; the path of" },
        { new() { Tls = true, CaFile = "/nowhere/ca.pem" }, "Broker:CaFile is \"/nowhere/ca.pem\", which does not exist" },
        { new() { Tls = true, CaFile = "/etc/passwd" }, "Broker:CaFile \"/etc/passwd\" holds no certificate" },
        { new() { Tls = true, ClientCertificate = "/etc/passwd" }, "Broker:ClientCertificate \"/etc/passwd\" cannot be used" },
        { new() { Tls = false, CaFile = "/etc/passwd" }, "Broker:Tls is false although a certificate is named" },
        { new() { Tls = true, ClientKey = "/etc/passwd" }, "Broker:ClientKey is set without Broker:ClientCertificate" },
        { new() { ReadingFilters = ["a/#/b"] }, "Broker:ReadingFilters:0 is \"a/#/b\"; a pattern such as" },
        { new() { ReadingFilters = ["a/b+"] }, "Broker:ReadingFilters:0 is \"a/b+\"; a pattern such as" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_wrong_setting_is_named_with_what_is_allowed(BrokerSettings settings, string sentence) =>
        Assert.Contains(settings.Problems(), problem => problem.StartsWith(sentence, StringComparison.Ordinal));

    private static IConfiguration Configuration(params (string Key, string Value)[] values) => new ConfigurationBuilder()
        .AddInMemoryCollection(values.Select(pair => KeyValuePair.Create<string, string?>(pair.Key, pair.Value))).Build();
}
