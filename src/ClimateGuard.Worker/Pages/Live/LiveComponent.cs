using Microsoft.AspNetCore.Components;

namespace ClimateGuard.Worker.Pages.Live;

/// <summary>A component that renders again when the cell changes.</summary>
public abstract class LiveComponent : ComponentBase, IDisposable
{
    /// <summary>What this browser page sees.</summary>
    [Inject]
    protected LiveView Live { get; set; } = null!;

    /// <inheritdoc/>
    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Stops listening.</summary>
    protected virtual void Dispose(bool disposing) => Live.Changed -= OnChanged;

    /// <inheritdoc/>
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            Live.Changed += OnChanged;
        }
    }

    private void OnChanged() => _ = RefreshAsync();

    private async Task RefreshAsync()
    {
        try
        {
            await InvokeAsync(StateHasChanged);
        }
        catch (ObjectDisposedException)
        {
            // The browser left between the news and the rendering: there is nobody to show it to.
        }
    }
}
