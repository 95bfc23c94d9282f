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
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(400);
    private readonly CancellationTokenSource leaving = new();

    /// <summary>What the worker is put together from.</summary>
    [Inject]
    protected IServiceProvider Services { get; set; } = null!;

    /// <summary>The evidence; null before it was read and when there is none.</summary>
    protected BoardData? Data { get; private set; }

    /// <summary>Why there is nothing to show, or what is being done.</summary>
    protected string Waiting { get; private set; } = "Reading the results and replaying the readings of the cuts. After a new file this takes a while.";

    /// <summary>How much is done, in [0, 1]; null when that is not known or nothing is being done.</summary>
    protected double? Share { get; private set; }

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
            var reading = Task.Run(() => book.NowAsync(leaving.Token), leaving.Token);
            await FollowAsync(book, reading);
            Data = await reading;
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

        Share = null;
        await InvokeAsync(StateHasChanged);
    }

    // The step is shown as it is told, so that a person sees that it goes on and about how long it takes.
    private async Task FollowAsync(EvidenceBook book, Task reading)
    {
        while (await Task.WhenAny(reading, Task.Delay(Look, leaving.Token)) != reading && !leaving.IsCancellationRequested)
        {
            if (book.Progress is not { } progress) continue;
            Share = progress.Share;
            Waiting = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Working it out, {progress.What}: {100 * progress.Share:0} %.");
            await InvokeAsync(StateHasChanged);
        }
    }
}
