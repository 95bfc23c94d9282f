using ClimateGuard.Plant;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>What a plant file may not change while its cell runs: topics, history and the local times of the record hang on it.</summary>
internal static class OnlyByRestart
{
    public static IEnumerable<PlantProblem> Problems(CellDraft draft, Cell running)
    {
        if (draft.Cell is { } id && id != running.Id)
        {
            yield return new("/cell", $"the cell is now \"{id}\", and {running.Id} runs: another id takes effect with a restart of the worker only");
        }

        var zone = draft.TimeZone ?? new CellDescription { Id = "", Name = "", Zones = [], Sensors = [] }.TimeZone;
        if (zone != running.Description.TimeZone)
        {
            yield return new(
                "/timeZone", $"the time zone is now {zone}, and {running.Description.TimeZone} runs: another takes effect with a restart of the worker only");
        }
    }
}
