using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>What is loaded, in one line.</summary>
public static class JobWords
{
    /// <summary>Such as <c>part FD-1100 · serial 0117 · op 40</c>; null when nothing is loaded.</summary>
    public static string? Of(MachineSnapshot machine)
    {
        ArgumentNullException.ThrowIfNull(machine);
        var outlook = machine.Outlook;
        string?[] words =
        [
            outlook.Part.Length > 0 ? "part " + outlook.Part : null,
            outlook.Serial.Length > 0 ? "serial " + outlook.Serial : null,
            outlook.Operation.Length > 0 ? "op " + outlook.Operation : null,
            machine.Job?.Pallet is { Length: > 0 } pallet ? "pallet " + pallet : null,
        ];
        var line = string.Join(" · ", words.OfType<string>());
        return line.Length > 0 ? line : null;
    }
}
