using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Worker.Hosting;
using ClimateGuard.Worker.Pages.Words;
using Microsoft.AspNetCore.Components;

namespace ClimateGuard.Worker.Pages.Quality;

/// <summary>A page that shows evidence: reads it once when it is opened, as numbers that move while they are read out help nobody.</summary>
public abstract class EvidenceReader : ComponentBase, IDisposable
{
    private readonly CancellationTokenSource leaving = new();

    /// <summary>What the worker is put together from.</summary>
    [Inject]
    protected IServiceProvider Services { get; set; } = null!;

    /// <summary>The evidence; null before it was read and when there is none.</summary>
    protected BoardData? Data { get; private set; }

    /// <summary>Why there is nothing to show, or what is being done.</summary>
    protected string Waiting { get; private set; } = "Reading the results and replaying the readings of the cuts. After a new file this takes a while.";

    /// <summary>The clock of the cell.</summary>
    protected CellTime Time { get; private set; } = CellTime.Of("UTC");

    /// <inheritdoc/>
    public void Dispose()
    {
        leaving.Cancel();
        leaving.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <inheritdoc/>
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender && Services.GetService<EvidenceBook>() is { } book)
        {
            _ = ReadAsync(book);
        }
    }

    private async Task ReadAsync(EvidenceBook book)
    {
        try
        {
            Data = await Task.Run(() => book.NowAsync(leaving.Token), leaving.Token);
            Time = CellTime.Of(Data?.Cell.Description.TimeZone ?? "UTC");
            Waiting = "No inspection results of parts that were cut here have come in.";
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (Exception failure) when (failure is StoreUnavailableException or UnreadableFileException or IOException)
        {
            Waiting = $"The history could not be read: {failure.Message.TrimEnd('.')}. Open the page again later; nothing was changed.";
        }

        await InvokeAsync(StateHasChanged);
    }
}
