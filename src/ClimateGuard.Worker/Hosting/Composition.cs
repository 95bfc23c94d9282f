using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Api;
using ClimateGuard.Worker.Pages;
using Serilog;
using Serilog.Events;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The one place where the worker is put together.</summary>
internal static class Composition
{
    public static string Version { get; } = typeof(Composition).Assembly.GetName().Version?.ToString(3) ?? "0";

    public static WebApplication Build(WorkerPlan plan, Action<IServiceCollection>? more = null)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(Composition).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseUrls([.. plan.Urls]);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Limits.MaxRequestBodySize = 1 << 20);
        builder.Services.Configure<Microsoft.AspNetCore.HostFiltering.HostFilteringOptions>(
            filter => filter.AllowedHosts = ["localhost", "127.0.0.1", "[::1]"]);
        builder.Host.UseSystemd();
        builder.Services.AddSerilog(Logging);
        AddWorker(builder.Services, plan);
        builder.Services.AddPages();
        builder.Services.AddApi();
        more?.Invoke(builder.Services);

        var app = builder.Build();
        app.UseHostFiltering();
        app.MapApi();
        app.MapPages();
        return app;
    }

    private static void Logging(LoggerConfiguration log) => log
        .MinimumLevel.Information()
        .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
        .WriteTo.Console(
            standardErrorFromLevel: LogEventLevel.Verbose,
            formatProvider: System.Globalization.CultureInfo.InvariantCulture,
            outputTemplate: "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj}{NewLine}{Exception}");

    private static void AddWorker(IServiceCollection services, WorkerPlan plan)
    {
        services.AddSingleton(plan);
        services.AddSingleton(new Topics(plan.Cell.Id));
        services.AddSingleton(new TopicMap(plan.Cell, plan.Broker.ReadingFilters));
        services.AddSingleton(provider => new BrokerLink(
            plan.Broker, provider.GetRequiredService<Topics>(), new WorkerIdentity(Version, plan.ConfigVersion), plan.CellTime,
            provider.GetRequiredService<ILogger<BrokerLink>>()));
        services.AddSingleton(provider => new MqttReadings(
            provider.GetRequiredService<BrokerLink>(), plan.Cell, provider.GetRequiredService<TopicMap>(), plan.CellTime,
            provider.GetRequiredService<ILogger<MqttReadings>>(), provider.GetRequiredService<MqttPermits>()));
        services.AddSingleton(provider => new MqttPermits(
            provider.GetRequiredService<BrokerLink>(), plan.CellTime, provider.GetRequiredService<ILogger<MqttPermits>>()));
        services.AddSingleton(provider => new MqttPermitLines(
            provider.GetRequiredService<BrokerLink>(), provider.GetRequiredService<ILogger<MqttPermitLines>>()));
        services.AddSingleton(provider => new MqttOutlooks(
            provider.GetRequiredService<BrokerLink>(), plan.CellTime, provider.GetRequiredService<ILogger<MqttOutlooks>>()));
        services.AddSingleton(provider => new MqttPlant(
            provider.GetRequiredService<BrokerLink>(), provider.GetRequiredService<MqttReadings>(), plan.Broker.ReadingFilters,
            provider.GetRequiredService<ILogger<MqttPlant>>()));
        services.AddStores(plan);
        services.AddTelling(plan);
        services.AddSingleton(provider => new CellLoop(
            plan.Plant, Ports(provider), Pace(plan), plan.CellTime));
        services.AddSingleton<ScoreBook>();
        services.AddSingleton<EvidenceBook>();
        services.AddSingleton<RoomBook>();
        services.AddSingleton<DeviceShelf>();
        services.AddSingleton<ResultsDesk>();
        services.AddSingleton<CellLease>();
        services.AddSingleton<FindingDesk>();
        services.AddHostedService<PlantFileWatch>();
        services.AddHostedService<SettingsFileWatch>();
        services.AddHostedService<CellService>();
    }

    private static CellLoopOptions Pace(WorkerPlan plan) => new() { Tick = plan.Tick, LeastBetweenSteps = plan.Tick, Gather = plan.Gather };

    internal static CellLoopPorts Ports(IServiceProvider provider)
    {
        var live = provider.GetRequiredService<Pages.Live.LiveCell>();
        var link = provider.GetRequiredService<BrokerLink>();
        var shadow = provider.GetRequiredService<WorkerPlan>().Shadow;
        return new CellLoopPorts
        {
            Source = provider.GetRequiredService<MqttReadings>(),
            Readings = provider.GetRequiredService<IReadingStore>(),
            Ledger = provider.GetRequiredService<ILedgerStore>(),
            Channels = [provider.GetRequiredService<MqttPermits>(), provider.GetRequiredService<MqttOutlooks>(), .. provider.GetServices<IAlertChannel>()],
            EventLine = happened => ShadowMark.On(LedgerLines.Of(happened), shadow),
            DecisionLine = decision => LedgerLines.Of(decision) is { } line ? ShadowMark.On(line, shadow) : null,
            Checkpoint = state => new MachineCheckpoint(state.Machine, ShadowMark.On(MachineStateJson.Text(state), shadow)),
            State = checkpoint => Remembered(checkpoint, shadow, provider.GetRequiredService<ILogger<CellLoop>>()),
            Event = line => EventDecoder.DecodeLine(System.Text.Encoding.UTF8.GetBytes(line.Json)).Event,
            Finding = FindingLines.Finding,
            Excursion = FindingLines.Excursion,
            UsePlant = UsePlant(provider),
            Show = snapshot => live.Show(snapshot, link.State.Connected),
        };
    }

    private static Func<PlantVersion, CancellationToken, ValueTask> UsePlant(IServiceProvider provider)
    {
        var readings = provider.GetService<SqliteReadings>();
        var influx = provider.GetService<InfluxReadings>();
        var mqtt = provider.GetRequiredService<MqttPlant>();
        var retry = StoreRetry.Create("names of the sensors", provider.GetRequiredService<ILogger<SqliteReadings>>(), TimeProvider.System);
        return async (plant, cancellation) =>
        {
            await retry.ExecuteAsync(
                _ =>
                {
                    readings?.UseCell(plant.Cell);
                    influx?.UseCell(plant.Cell);
                    return ValueTask.CompletedTask;
                },
                cancellation);
            mqtt.Use(plant.Cell, new WorkerIdentity(Version, plant.Version));
        };
    }

    private static MachineState? Remembered(MachineCheckpoint checkpoint, bool shadow, Microsoft.Extensions.Logging.ILogger logger)
    {
        var (state, reason) = MachineStateJson.Read(checkpoint.Json);
        if (state is null)
        {
            logger.LogWarning(
                "What machine {Machine} remembered cannot be read ({Reason}); it begins anew and its part counts as unmeasured until it is measured or loaded again.",
                checkpoint.Machine, reason);
        }

        // A permit that no machine was told must not hold when the worker goes live.
        return !shadow && ShadowMark.IsOn(checkpoint.Json) ? state is null ? null : state with { Permits = PermitBook.Empty } : state;
    }
}
