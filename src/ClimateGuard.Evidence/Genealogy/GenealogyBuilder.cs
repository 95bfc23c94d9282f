using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>Builds steps out of events in the order of time.</summary>
internal sealed class GenealogyBuilder
{
    private readonly List<WorkStep> closed = [];
    private readonly Dictionary<string, List<WorkStep>> open = new(StringComparer.Ordinal);

    public IEnumerable<WorkStep> Steps() => closed.Concat(open.Values.SelectMany(steps => steps));

    public void Take(MachineEvent happened)
    {
        var here = At(happened.Machine);
        switch (happened)
        {
            case JobLoaded { IsUnload: true }:
                Close(here, happened.Time);
                break;
            case JobLoaded job:
                Load(here, job);
                break;
            case PermitRequested request:
                Change(here, Found(here, request, request.Serial, request.Operation, request.Part), step => With(step, request) with { Program = request.Program ?? step.Program });
                break;
            case CutMoved cut:
                Change(here, Found(here, cut, cut.Serial, cut.Operation, ""), step => Cut(step, cut));
                break;
            case Overridden taken:
                Change(here, Found(here, taken, taken.Serial, taken.Operation, ""), step => With(step, taken));
                break;
            default:
                for (var i = 0; i < here.Count; i++) here[i] = With(here[i], happened);
                break;
        }
    }

    private List<WorkStep> At(string machine)
    {
        if (!open.TryGetValue(machine, out var here)) open.Add(machine, here = []);
        return here;
    }

    private void Load(List<WorkStep> here, JobLoaded job)
    {
        var same = here.FindIndex(step => step.Serial == job.Serial && step.Operation == job.Operation);
        if (same >= 0)
        {
            // The same job told again: what it adds is taken, its begin stays.
            here[same] = Described(here[same], job);
            return;
        }

        var running = here.FindIndex(step => step.Part == job.Part && step.Operation == job.Operation && step.Nest == job.Nest && step.Cuts.Any(cut => cut.End is null));
        if (running >= 0)
        {
            here[running] = Described(here[running], job) with { Serial = job.Serial, FormerSerial = here[running].Serial };
            return;
        }

        var shares = job is { Nest: not null, Pallet: not null } && here.Any(step => step.Pallet == job.Pallet && step.Nest is not null && step.Nest != job.Nest);
        if (!shares) Close(here, job.Time);
        here.Add(Described(new WorkStep { Serial = job.Serial, Operation = job.Operation, Machine = job.Machine, Begin = job.Time }, job));
    }

    private static WorkStep Described(WorkStep step, JobLoaded job) => step with
    {
        Part = job.Part,
        Pallet = job.Pallet ?? step.Pallet,
        Nest = job.Nest ?? step.Nest,
        Batch = job.Batch ?? step.Batch,
        Operator = job.Operator ?? step.Operator,
        Program = job.Program ?? step.Program,
        EnteredCell = job.EnteredCell ?? step.EnteredCell,
    };

    // A control may ask or cut without a job told before: then the step begins with that.
    private static int Found(List<WorkStep> here, MachineEvent happened, string serial, string operation, string part)
    {
        var at = here.FindIndex(step => (step.Serial == serial || step.FormerSerial == serial) && step.Operation == operation);
        if (at >= 0) return at;
        here.Add(new WorkStep { Serial = serial, Operation = operation, Machine = happened.Machine, Part = part, Begin = happened.Time });
        return here.Count - 1;
    }

    private static void Change(List<WorkStep> here, int at, Func<WorkStep, WorkStep> change) => here[at] = change(here[at]);

    private static WorkStep With(WorkStep step, MachineEvent happened) => step with { Events = [.. step.Events, happened] };

    private static WorkStep Cut(WorkStep step, CutMoved cut)
    {
        var tools = cut.Tool is { } tool && !step.Tools.Contains(tool) ? [.. step.Tools, tool] : step.Tools;
        if (cut.Started)
        {
            return step with { Tools = tools, Cuts = [.. step.Cuts, new CutSpan(cut.Feature, cut.Hole, cut.Time, null, cut.Tool)] };
        }

        var cuts = step.Cuts.ToArray();
        var at = Array.FindLastIndex(cuts, running => running.End is null && running.Feature == cut.Feature && running.Hole == cut.Hole);
        if (at < 0) at = Array.FindLastIndex(cuts, running => running.End is null);
        if (at >= 0) cuts[at] = cuts[at] with { End = cut.Time };
        return step with { Tools = tools, Cuts = cuts };
    }

    private void Close(List<WorkStep> here, DateTimeOffset time)
    {
        closed.AddRange(here.Select(step => step with { End = time }));
        here.Clear();
    }
}
