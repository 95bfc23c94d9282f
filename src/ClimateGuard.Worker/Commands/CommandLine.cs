using System.CommandLine;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary>The command line: a file for each verb, put together here.</summary>
internal static class CommandLine
{
    /// <summary>Exit code when done.</summary>
    public const int Done = 0;

    /// <summary>Exit code when something failed that is not the caller's input.</summary>
    public const int Failed = 1;

    /// <summary>Exit code on bad input: one clear line, nothing half-written.</summary>
    public const int BadInput = 2;

    public static Option<bool> Json { get; } = new("--json")
    {
        Description = "Machine-readable result on standard output; log lines go to standard error either way.",
        Recursive = true,
    };

    public static Option<string?> Plant { get; } = new("--plant") { Description = "The plant file (default: config/plant.yaml).", HelpName = "FILE" };

    public static Option<string?> SettingsFile { get; } = new("--settings")
    {
        Description = "The settings file (default: config/climateguard.json); environment variables CLIMATEGUARD_… win.",
        HelpName = "FILE",
    };

    public static async Task<int> RunAsync(string[] args)
    {
        var parsed = Root().Parse(args);
        if (parsed.Errors.Count > 0)
        {
            await Console.Error.WriteLineAsync($"climateguard: {parsed.Errors[0].Message} Try climateguard --help.");
            return BadInput;
        }

        try
        {
            return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (SettingsException wrong)
        {
            await Console.Error.WriteLineAsync($"climateguard: {wrong.Message}");
            return BadInput;
        }
        catch (OperationCanceledException)
        {
            return Done;
        }
    }

    /// <summary>Says on standard error what a verb cannot do, in one line.</summary>
    /// <returns>The exit code.</returns>
    public static int Refuse(string verb, string problem, int exitCode = BadInput)
    {
        Console.Error.WriteLine($"climateguard {verb}: {problem}");
        return exitCode;
    }

    /// <summary>Says on standard error all that is wrong with the input, each problem in a line of its own.</summary>
    /// <returns>The exit code of bad input.</returns>
    public static int Refuse(IEnumerable<string> problems)
    {
        foreach (var problem in problems)
        {
            Console.Error.WriteLine(problem);
        }

        return BadInput;
    }

    private static RootCommand Root()
    {
        var root = new RootCommand(
            "ClimateGuard says, before the finish cut, whether temperature lets each feature hold its tolerance. "
            + "It is not a safety device and defers to local codes, the machine builder and licensed practice.")
        {
            RunCommand.Create(),
            DemoCommand.Create(),
            CheckCommand.Create(),
            EvaluateCommand.Create(),
            DiagnoseCommand.Create(),
            CalibrateCommand.Create(),
            ReplayCommand.Create(),
            EvidenceCommand.Create(),
            ResultsCommand.Create(),
            ScoreCommand.Create(),
            PolicyCommand.Create(),
            ImportCommand.Create(),
            ExportCommand.Create(),
            LedgerCommand.Create(),
            ConfigCommand.Create(),
            HistoryCommand.Create(),
            NotifyCommand.Create(),
        };
        root.Options.Add(Json);
        return root;
    }
}
