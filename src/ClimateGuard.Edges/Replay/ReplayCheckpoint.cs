using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>From where a replay that was stopped goes on: beside the output, gone when it is whole.</summary>
/// <param name="Question">Hash of everything that was asked: files, plant file, options, version.</param>
/// <param name="Moment">All up to this moment is in the output.</param>
/// <param name="Bytes">So long was the output then.</param>
/// <param name="Lines">So many lines it had.</param>
/// <param name="Machines">What each machine remembered.</param>
/// <param name="LastOutlooks">When each machine's outlook was written last, in ms since 1970.</param>
internal sealed record ReplayCheckpoint(
    string Question, DateTimeOffset Moment, long Bytes, long Lines, IReadOnlyList<string> Machines, IReadOnlyList<long> LastOutlooks)
{
    /// <summary>The states of the machines, or null when one cannot be read.</summary>
    public IReadOnlyList<MachineState>? States()
    {
        MachineState?[] states = [.. Machines.Select(text => MachineStateJson.ReadExact(text).State)];
        return states.Contains(null) ? null : [.. states.OfType<MachineState>()];
    }

    /// <summary>The checkpoint of an output for the same question, or null.</summary>
    public static ReplayCheckpoint? Find(string path, string question)
    {
        try
        {
            var found = File.Exists(path) ? JsonSerializer.Deserialize<ReplayCheckpoint>(File.ReadAllText(path)) : null;
            return found?.Question == question ? found : null;
        }
        catch (Exception broken) when (broken is JsonException or IOException)
        {
            // Then the replay begins with the first reading.
            return null;
        }
    }

    /// <summary>Keeps it: the one before stands until this one is whole.</summary>
    public void Write(string path)
    {
        File.WriteAllText(path + ".new", JsonSerializer.Serialize(this));
        File.Move(path + ".new", path, overwrite: true);
    }
}
