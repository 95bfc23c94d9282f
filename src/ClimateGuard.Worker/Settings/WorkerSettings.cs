using System.Net;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Mqtt;

namespace ClimateGuard.Worker.Settings;

/// <summary>The settings of the host: broker, storage, HTTP, messages to people.</summary>
/// <remarks>
/// From <c>config/climateguard.json</c>, overridden by environment variables such as <c>CLIMATEGUARD_Broker__Host</c>.
/// </remarks>
internal sealed record WorkerSettings(BrokerSettings Broker, string StoragePath, IReadOnlyList<string> Urls)
{
    public const string EnvironmentPrefix = "CLIMATEGUARD_";
    private const string Live = "live";
    private const string Shadow = "shadow";

    public const string DefaultUrl = "http://127.0.0.1:5080";

    /// <summary>How it works: <c>live</c>, or <c>shadow</c>: everything is decided and kept, and nothing is sent to machines.</summary>
    public string Mode { get; init; } = Live;

    /// <summary>Who is told, and when.</summary>
    public NoticeSettings Notices { get; init; } = new();

    /// <summary>The settings file that is read, or null when there is none.</summary>
    /// <param name="file">A settings file, or null for <c>config/climateguard.json</c> where it exists.</param>
    public static string? PathOf(string? file) => file ?? ShippedFiles.Find("climateguard.json");

    /// <summary>Where readings are kept: <c>sqlite</c> in the folder of the store, or <c>influx</c>. The ledger is in the folder either way.</summary>
    public string StorageKind { get; init; } = "sqlite";

    /// <summary>InfluxDB, used when <see cref="StorageKind"/> says so.</summary>
    public InfluxSettings Influx { get; init; } = new();

    /// <summary>InfluxDB, or null when readings are kept in SQLite.</summary>
    public InfluxSettings? InfluxInUse => StorageKind == "influx" ? Influx : null;

    /// <summary>How long readings are kept, and what is left to the ledger on a full disk.</summary>
    public StorageSettings Storage { get; init; } = new();

    /// <summary>Reads the settings.</summary>
    /// <param name="file">A settings file, or null for <c>config/climateguard.json</c> where it exists.</param>
    /// <exception cref="SettingsException">The file cannot be read, or a value has the wrong kind.</exception>
    public static WorkerSettings Read(string? file)
    {
        var path = PathOf(file);
        if (file is not null && !File.Exists(file))
        {
            throw new SettingsException($"settings file {file}: there is no such file.");
        }

        try
        {
            var builder = new ConfigurationBuilder();
            if (path is not null)
            {
                builder.AddJsonFile(Path.GetFullPath(path), optional: false);
            }

            return From(builder.AddEnvironmentVariables(EnvironmentPrefix).Build());
        }
        catch (Exception wrong) when (wrong is InvalidDataException or FormatException or InvalidOperationException)
        {
            throw new SettingsException($"settings {path}: {wrong.Message} {wrong.InnerException?.Message}".TrimEnd());
        }
    }

    /// <summary>Everything wrong with the settings, each as one sentence that says how to mend it.</summary>
    public IReadOnlyList<string> Problems() =>
    [
        .. ModeProblems(), .. Broker.Problems(), .. StorageProblems(), .. Urls.Select(ProblemOf).OfType<string>(), .. Notices.Problems(),
        .. Storage.Problems(),
    ];

    private IReadOnlyList<string> StorageProblems() => StorageKind switch
    {
        "sqlite" => [],
        "influx" => Influx.Problems(),
        _ => [$"Storage:Kind is \"{StorageKind}\"; sqlite or influx is allowed"],
    };

    private static WorkerSettings From(IConfiguration configuration) => new(
        BrokerSettings.From(configuration) with { ToPeopleOnly = ModeOf(configuration) == Shadow },
        configuration["Storage:Path"] is { Length: > 0 } storage ? storage : "data",
        (configuration["Http:Urls"] is { Length: > 0 } urls ? urls : DefaultUrl).Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
    {
        Mode = ModeOf(configuration),
        Notices = NoticeSettings.From(configuration),
        StorageKind = configuration["Storage:Kind"] is { Length: > 0 } kind ? kind : "sqlite",
        Influx = configuration.GetSection(InfluxSettings.Section).Get<InfluxSettings>() ?? new InfluxSettings(),
        Storage = NoticeSettings.Bound<StorageSettings>(configuration, StorageSettings.Section),
    };

    private static string ModeOf(IConfiguration configuration) => configuration["Mode"] is { Length: > 0 } mode ? mode : Live;

    private IEnumerable<string> ModeProblems() =>
        Mode is Live or Shadow ? [] : [$"Mode {Mode}: live is allowed, or shadow (everything is decided and kept, and nothing is sent to machines)."];

    private static string? ProblemOf(string url)
    {
        if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme != "http")
        {
            return $"Http:Urls {url}: an address such as {DefaultUrl} is allowed.";
        }

        var loopback = address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));
        return loopback
            ? null
            : $"Http:Urls {url}: pages and API have no accounts yet, so only this computer may reach them. "
                + $"Write \"Http\": {{ \"Urls\": \"http://127.0.0.1:{address.Port}\" }} in config/climateguard.json, "
                + $"or set {EnvironmentPrefix}Http__Urls=http://127.0.0.1:{address.Port}.";
    }
}

/// <summary>The settings cannot be used; the message says where and how to mend it.</summary>
internal sealed class SettingsException(string message) : Exception(message);
