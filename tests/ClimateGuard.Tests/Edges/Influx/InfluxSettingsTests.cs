using ClimateGuard.Edges.Influx;

namespace ClimateGuard.Tests.Edges.Influx;

public sealed class InfluxSettingsTests : IDisposable
{
    private readonly string token = Path.GetTempFileName();

    public InfluxSettingsTests() => File.WriteAllText(token, "secret-token\n");

    public void Dispose() => File.Delete(token);

    [Fact]
    public void A_bucket_and_an_organisation_are_enough_on_this_computer() => Assert.Empty(Good.Problems());

    [Theory]
    [InlineData("", "", "cg/autogen", "cg", "autogen")]
    [InlineData("", "", "climate", "climate", "")]
    [InlineData("db", "week", "climate", "db", "week")]
    public void Where_to_read_follows_from_the_bucket_unless_it_is_said(string database, string policy, string bucket, string readDatabase, string readPolicy)
    {
        var settings = Good with { Bucket = bucket, Database = database, RetentionPolicy = policy };
        Assert.Equal((readDatabase, readPolicy), (settings.ReadDatabase, settings.ReadPolicy));
    }

    [Fact]
    public void A_token_never_crosses_the_network_in_the_clear_and_the_line_to_mend_it_is_said()
    {
        var problem = Assert.Single((Good with { Url = "http://influx.example.org:8086", TokenFile = token }).Problems());
        Assert.Contains("would cross the network in the clear", problem, StringComparison.Ordinal);
        Assert.Contains("Write \"Url\": \"https://influx.example.org:8086\"", problem, StringComparison.Ordinal);
        Assert.Empty((Good with { Url = "https://influx.example.org:8086", TokenFile = token }).Problems());
    }

    public static TheoryData<InfluxSettings, string> Wrong() => new()
    {
        { Good with { Url = "influx" }, "Influx:Url is \"influx\"; an address such as" },
        { Good with { Url = "ftp://127.0.0.1" }, "an address such as" },
        { Good with { Url = "http://u:p@127.0.0.1:8086" }, "holds more than an address" },
        { Good with { Url = "http://127.0.0.1:8086/?token=x" }, "holds more than an address" },
        { Good with { Url = "https://influx.example.org" }, "Influx:TokenFile is empty although Influx:Url is on another computer" },
        { Good with { TokenFile = "/nowhere/at/all" }, "Influx:TokenFile is \"/nowhere/at/all\", which does not exist" },
        { Good with { Org = " " }, "Influx:Org is empty" },
        { Good with { Bucket = "" }, "Influx:Bucket is empty; a bucket such as climateguard/autogen is needed" },
        { Good with { Bucket = "a\nb" }, "Influx:Bucket is longer than 200 characters or holds control characters" },
        { Good with { SpoolMegabytes = 0 }, "Influx:SpoolMegabytes is 0; 1 to 1000000 is allowed" },
        { Good with { TimeoutSeconds = 301 }, "Influx:TimeoutSeconds is 301; 1 to 300 is allowed" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_wrong_value_is_named_with_what_is_allowed(InfluxSettings settings, string words) =>
        Assert.Contains(words, Assert.Single(settings.Problems()), StringComparison.Ordinal);

    private static InfluxSettings Good => new() { Org = "shop", Bucket = "climateguard/autogen" };
}
