using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Tests.Worker.Settings;

/// <summary><c>Storage:Kind</c>: which store keeps the readings.</summary>
public sealed class StorageKindTests : IDisposable
{
    private const string Influx = """, "Influx": { "Url": "http://127.0.0.1:8086", "Org": "shop", "Bucket": "climateguard" }""";

    private readonly string file = Path.GetTempFileName();

    public void Dispose() => File.Delete(file);

    [Theory]
    [InlineData("{}")]
    [InlineData("""{ "Storage": { "Kind": "" } }""")]
    [InlineData("""{ "Storage": { "Kind": "sqlite" } }""")]
    public void Readings_are_kept_in_sqlite_unless_something_else_is_said(string text)
    {
        var settings = Read(text);
        Assert.Equal("sqlite", settings.StorageKind);
        Assert.Null(settings.InfluxInUse);
        Assert.Empty(settings.Problems());
    }

    [Fact]
    public void With_influx_they_go_to_the_influxdb_of_the_settings()
    {
        var settings = Read($$"""{ "Storage": { "Kind": "influx" }{{Influx}} }""");
        Assert.Equal(("http://127.0.0.1:8086", "climateguard"), (settings.InfluxInUse!.Url, settings.InfluxInUse.Bucket));
        Assert.Empty(settings.Problems());
    }

    [Fact]
    public void With_influx_what_is_missing_there_is_named_and_with_sqlite_nobody_asks_for_it()
    {
        Assert.Contains(Read("""{ "Storage": { "Kind": "influx" } }""").Problems(), problem => problem.Contains("Influx:Bucket is empty", StringComparison.Ordinal));
        Assert.Empty(Read("""{ "Storage": { "Kind": "sqlite" }, "Influx": { "Url": "nowhere" } }""").Problems());
    }

    [Theory]
    [InlineData("influxdb")]
    [InlineData("SQLite")]
    [InlineData("postgres")]
    public void Another_word_is_refused_with_those_that_are_allowed(string word)
    {
        var settings = Read($$"""{ "Storage": { "Kind": "{{word}}" }{{Influx}} }""");
        Assert.Equal([$"Storage:Kind is \"{word}\"; sqlite or influx is allowed"], settings.Problems());
        Assert.Null(settings.InfluxInUse);
    }

    private WorkerSettings Read(string text)
    {
        File.WriteAllText(file, text);
        return WorkerSettings.Read(file);
    }
}
