using Microsoft.AspNetCore.Http.Features;

namespace ClimateGuard.Worker.Api;

/// <summary>Puts the HTTP interface together; a file for each resource. Errors are problem details (RFC 9457).</summary>
internal static class ApiSetup
{
    public const string Root = "/api/v1";

    public static void AddApi(this IServiceCollection services)
    {
        services.AddProblemDetails();
        services.AddOpenApi();
    }

    public static void MapApi(this WebApplication app)
    {
        app.UseWhen(
            context => context.Request.Path.StartsWithSegments(Root, StringComparison.Ordinal),
            branch =>
            {
                branch.UseExceptionHandler();
                branch.UseStatusCodePages();
            });
        app.MapOpenApi();
        var api = app.MapGroup(Root).AddEndpointFilter(StandingBy.RefuseChangesAsync);
        SensorsApi.Map(api);
        MachinesApi.Map(api);
        SeriesApi.Map(api);
        EventsApi.Map(api);
        PermitsApi.Map(api);
        ResultsApi.Map(api);
        DevicesApi.Map(api);
        EvidenceApi.Map(api);
        ScoreApi.Map(api);
        LedgerApi.Map(api);
        ConfigApi.Map(api);
        AlarmFiguresApi.Map(api);
        FindingsApi.Map(api);
        ExcursionsApi.Map(api);
        ForecastApi.Map(api);
        RoomApi.Map(api);
        HealthApi.Map(app);
        MetricsApi.Map(app);
    }
}
