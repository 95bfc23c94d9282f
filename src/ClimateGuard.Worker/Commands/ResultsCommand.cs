using System.CommandLine;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard results</c>: hands a file of inspection results to the running worker, which alone writes the ledger.</summary>
internal static class ResultsCommand
{
    private static readonly Option<string> File = new("--file") { Description = "The inspection results, QIF 3.0 or CSV.", HelpName = "FILE", Required = true };

    private static readonly Option<string?> Url = new("--url") { Description = "The address of the worker (default: the first of Http:Urls in the settings).", HelpName = "URL" };

    private static readonly Option<string?> Device = new("--device") { Description = "The device whose saved mapping reads the file.", HelpName = "DEVICE" };

    private static readonly Option<bool> Preview = new("--preview") { Description = "Say what would be taken in, as JSON, and keep nothing." };

    public static Command Create()
    {
        var command = new Command("results", "Hands inspection results to the running worker: the whole file or nothing, and each file once. They stand in the ledger and in "
            + "the score.\n\nExample: climateguard results --file results.csv")
        {
            File, Url, Device, Preview, CommandLine.SettingsFile,
        };
        command.SetAction((parsed, cancellation) => RunAsync(parsed, cancellation));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var (file, address) = (parsed.GetRequiredValue(File), parsed.GetValue(Url) ?? WorkerSettings.Read(parsed.GetValue(CommandLine.SettingsFile)).Urls[0]);
        if (!System.IO.File.Exists(file))
        {
            return CommandLine.Refuse("results", $"{file}: there is no such file.");
        }

        if (!Uri.TryCreate(address, UriKind.Absolute, out var worker) || worker.Scheme is not ("http" or "https"))
        {
            return CommandLine.Refuse("results", $"--url {address}: an address such as {WorkerSettings.DefaultUrl} is allowed.");
        }

        try
        {
            var preview = parsed.GetValue(Preview);
            var (taken, text) = await ResultsUpload.SendAsync(worker, file, cancellation, parsed.GetValue(Device), preview);
            return Say(preview || parsed.GetValue(CommandLine.Json), file, taken, text);
        }
        catch (Exception failure) when (failure is HttpRequestException or IOException or TaskCanceledException && !cancellation.IsCancellationRequested)
        {
            return CommandLine.Refuse("results", $"{file} was not handed over: no answer from the worker at {worker} ({failure.Message.TrimEnd('.')}). Start the worker, or name its address with --url.", CommandLine.Failed);
        }
    }

    private static int Say(bool json, string file, bool taken, string text)
    {
        if (!taken)
        {
            return CommandLine.Refuse("results", $"{file}: {ResultsUpload.Refusal(text)}");
        }

        Console.Out.WriteLine(json ? text : $"{file}: {ResultsUpload.Words(text)}");
        return CommandLine.Done;
    }
}
