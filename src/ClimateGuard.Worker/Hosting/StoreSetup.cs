using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Where readings and the ledger are kept. The ledger is in SQLite whatever keeps the readings.</summary>
internal static class StoreSetup
{
    public static void AddStores(this IServiceCollection services, WorkerPlan plan)
    {
        var storage = new SqliteStorage { Folder = plan.StorageFolder, Retention = plan.Storage.Retention };
        services.AddSingleton(provider => SqliteLedger.Open(
            storage, plan.Cell.Id, TimeProvider.System, provider.GetRequiredService<ILogger<SqliteLedger>>()));
        services.AddSingleton<ILedgerStore>(provider => new PatientLedger(
            provider.GetRequiredService<SqliteLedger>(),
            StoreRetry.Create("ledger", provider.GetRequiredService<ILogger<PatientLedger>>(), TimeProvider.System)));
        services.AddSingleton(new DiskSpace(plan.StorageFolder, plan.Storage.ReserveBytes, TimeProvider.System));
        if (plan.Influx is { } influx)
        {
            services.AddSingleton(provider => InfluxReadings.Open(
                influx, plan.StorageFolder, plan.Cell, TimeProvider.System, provider.GetRequiredService<ILogger<InfluxReadings>>()));
            services.AddSingleton<IReadingStore>(provider => Patient(provider.GetRequiredService<InfluxReadings>(), provider));
            services.AddHostedService<SpoolStart>();
        }
        else
        {
            services.AddSingleton(provider => SqliteReadings.Open(
                storage, plan.Cell, TimeProvider.System, provider.GetRequiredService<ILogger<SqliteReadings>>()));
            services.AddSingleton(provider => new FullDiskReadings(
                provider.GetRequiredService<SqliteReadings>(), provider.GetRequiredService<DiskSpace>(), provider.GetRequiredService<ILedgerStore>(),
                plan.CellTime, TimeProvider.System, provider.GetRequiredService<ILogger<FullDiskReadings>>()));
            services.AddSingleton<IReadingStore>(provider => Patient(provider.GetRequiredService<FullDiskReadings>(), provider));
        }
    }

    private static PatientReadings Patient(IReadingStore store, IServiceProvider provider) => new(
        store, StoreRetry.Create("readings", provider.GetRequiredService<ILogger<PatientReadings>>(), TimeProvider.System));
}
