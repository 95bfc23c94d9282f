using ClimateGuard.Worker.Hosting;
using ClimateGuard.Worker.Pages.Live;
using ClimateGuard.Worker.Pages.Machinist;
using ClimateGuard.Worker.Pages.Quality;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace ClimateGuard.Worker.Pages;

/// <summary>Puts the pages into the host; called by the composition root.</summary>
/// <remarks>
/// The host must also call <c>builder.WebHost.UseStaticWebAssets()</c>: outside the Development environment a <c>dotnet run</c>
/// serves neither style nor script without it, and in a published folder the call does nothing.
/// </remarks>
public static class PagesSetup
{
    /// <summary>Adds what the pages need. The worker shows what it knows by <see cref="LiveCell.Show"/>.</summary>
    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton(provider => new LiveCell(provider.GetRequiredService<TimeProvider>())
        {
            Shadow = provider.GetService<WorkerPlan>()?.Shadow ?? false,
        });
        services.AddScoped<LiveView>();
        services.AddScoped<EntryDesk>();
        services.AddScoped<ImportDesk>();
        return services;
    }

    /// <summary>Serves the pages and their style, script and picture files.</summary>
    public static WebApplication MapPages(this WebApplication app)
    {
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }
}
