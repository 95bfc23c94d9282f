using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Answers the requests of a control: at once, from the state of this very moment, and each request once.</summary>
internal sealed class PermitDesk(Cell cell, Machine machine, OutlookMaker outlooks, string configVersion)
{
    /// <summary>A request older than this is not answered with a go: it may have waited in a queue.</summary>
    public static readonly TimeSpan OldestRequest = TimeSpan.FromSeconds(10);

    /// <summary>How long a permit holds.</summary>
    public static readonly TimeSpan PermitValidity = TimeSpan.FromMinutes(10);

    /// <summary>Answers a request that was taken in at the state's moment.</summary>
    public (MachineState State, Evaluation? Evaluation, IReadOnlyList<Decision> Decisions) Answer(
        MachineState state, ThermalModel model, PermitRequested request)
    {
        var fingerprint = string.Join('|', request.Serial, request.Part, request.Operation, request.Feature, request.Planned?.TotalSeconds);
        if (state.Permits.Find(request.RequestId) is { } before)
        {
            var repeated = before.Fingerprint == fingerprint ? before.Answer : Reply(state, request, Thermal.Answer.Hold, ReasonCodes.IdReused,
                "Request id used before: ask with a new one");
            return (state, null, [new RequestAnswered(state.At, repeated, Repeated: before.Fingerprint == fingerprint)]);
        }

        var (answer, evaluation) = Judge(state, model, request);
        var next = Keep(state, fingerprint, request, answer);
        List<Decision> decisions = [new RequestAnswered(state.At, answer, Repeated: false)];
        if (answer.Permit is not null && state.Permits.Newest is { } older && older.HoldsAt(state.At))
        {
            decisions.Add(new PermitChanged(state.At, older with { Fate = PermitFate.Superseded }));
        }

        return (next, evaluation, decisions);
    }

    private (PermitAnswer Answer, Evaluation? Evaluation) Judge(MachineState state, ThermalModel model, PermitRequested request)
    {
        if (Formality(state, request) is { } refused)
        {
            return (refused, null);
        }

        if (state.Override is { } taken && taken.Covers(request.Serial, request.Operation, state.At))
        {
            return (Go(state, request, Thermal.Answer.GoOverridden, ReasonCodes.Overridden, $"On the responsibility of {taken.By}", null), null);
        }

        if (outlooks.WhyNotKnown(state) is { } missing)
        {
            return (Reply(state, request, Thermal.Answer.Unknown, ReasonCodes.InputMissing, $"Not known: {missing}"), null);
        }

        var feature = request.Feature is not null && state.Job is not null && state.Offset is null && model.Part!.Features.Any(f => f.Id == request.Feature) ? request.Feature : null;
        var cut = Evaluation.Cut(machine, state, request.Planned);
        var evaluation = Evaluation.Of(model, state, cut, state.Over(cell.Description.Policies), feature);
        return state.Offset is null
            ? (Decide(state, request, evaluation), feature is null ? evaluation : null)
            : (DecideWithOffset(state, request, OffsetView.Of(cell, machine, model, state, evaluation)), null);
    }

    /// <summary>What is wrong with the request itself, or with what it says is on the machine.</summary>
    private PermitAnswer? Formality(MachineState state, PermitRequested request)
    {
        var sent = request.SentAt is { } sentAt && sentAt < request.Time ? sentAt : request.Time;
        if (state.At - sent > OldestRequest)
        {
            return Reply(state, request, Thermal.Answer.Unknown, ReasonCodes.TooOld, $"Request is {Words.Minutes(state.At - sent)} old: ask again");
        }

        if (cell.FindPart(request.Part) is not { } part)
        {
            return Reply(state, request, Thermal.Answer.Unknown, ReasonCodes.PartUnknown, $"Part {request.Part} is not in the plant file");
        }

        if (part.Machines.Count > 0 && !part.Machines.Contains(machine.Id))
        {
            return Reply(state, request, Thermal.Answer.Hold, ReasonCodes.WrongMachine, $"{part.Number} is not made on {machine.Id}");
        }

        return state.Job is { } job && (job.Serial != request.Serial || job.Part != request.Part)
            ? Reply(state, request, Thermal.Answer.Hold, ReasonCodes.NotLoaded, $"{job.Serial} is loaded, not {request.Serial}")
            : null;
    }

    private PermitAnswer Decide(MachineState state, PermitRequested request, Evaluation evaluation)
    {
        var worst = evaluation.WorstFeature;
        var latched = state.Permits.Latch is { } latch && latch.Serial == request.Serial && latch.Operation == request.Operation;
        var code = ControlText.CodeOf(worst);
        return worst.Level switch
        {
            Level.Hold => Reply(state, request, Thermal.Answer.Hold, code, ControlText.Of(worst, state), evaluation),
            Level.MeasureFirst => Reply(state, request, Thermal.Answer.Measure, code, ControlText.Measure(worst), evaluation),
            _ when latched && !evaluation.ReleasesHold =>
                Reply(state, request, Thermal.Answer.Hold, code, $"Still held: {ControlText.Numbers(worst)}", evaluation),
            Level.Watch => Go(state, request, Thermal.Answer.Go, ReasonCodes.SmallMargin, $"Go, small margin: {ControlText.Numbers(worst)}", evaluation),
            _ => Go(state, request, Thermal.Answer.Go, ReasonCodes.WithinBudget, $"Go: {ControlText.Numbers(worst)}", evaluation),
        };
    }

    private PermitAnswer DecideWithOffset(MachineState state, PermitRequested request, OffsetView view)
    {
        var answer = view.Fits
            ? Go(state, request, Thermal.Answer.GoWithOffset, ReasonCodes.WithOffset, $"Go with the offset: {ControlText.Numbers(view.Worst)}", null)
            : Reply(state, request, Thermal.Answer.Measure, ReasonCodes.OffsetChanged, "The offset no longer fits: set it anew, or take it off");
        return answer with { Worst = view.Worst, Features = [view.Worst], Permit = answer.Permit is { } permit ? permit with { Offset = view.Set } : null, Actions = view.Actions(state) };
    }

    private static MachineState Keep(MachineState state, string fingerprint, PermitRequested request, PermitAnswer answer)
    {
        var book = state.Permits.With(new AnsweredRequest(fingerprint, answer));
        var latch = answer.Answer switch
        {
            Thermal.Answer.Hold when answer.ReasonCode is ReasonCodes.Mismatch or ReasonCodes.Drift or ReasonCodes.Uncertain =>
                book.Latch ?? new LatchedHold(request.Serial, request.Operation, state.At),
            Thermal.Answer.Go or Thermal.Answer.GoOverridden or Thermal.Answer.GoWithOffset => null,
            _ => book.Latch,
        };
        return state with { Permits = book with { Latch = latch } };
    }

    private PermitAnswer Go(
        MachineState state, PermitRequested request, Answer answer, string code, string text, Evaluation? evaluation) =>
        Reply(state, request, answer, code, text, evaluation) with
        {
            Permit = new Permit
            {
                Id = $"{cell.Id}-{machine.Id}-{state.Permits.Given + 1}",
                Machine = machine.Id,
                Serial = request.Serial,
                Operation = request.Operation,
                Feature = request.Feature,
                IssuedAt = state.At,
                ValidUntil = state.At + PermitValidity,
                ConfigVersion = configVersion,
                CoolantCelsius = state.Climate.CoolantCelsius,
            },
        };

    private static PermitAnswer Reply(
        MachineState state, PermitRequested request, Answer answer, string code, string text, Evaluation? evaluation = null) => new()
    {
        RequestId = request.RequestId,
        Machine = request.Machine,
        Serial = request.Serial,
        Part = request.Part,
        Operation = request.Operation,
        Time = state.At,
        Answer = answer,
        ReasonCode = code,
        Text = PermitAnswer.Shortened(text),
        Worst = evaluation?.WorstFeature,
        Features = evaluation?.Features ?? [],
        Start = evaluation is null ? null : state.Prospect?.Start,
        StartCountsFrom = state.Prospect?.At,
        Actions = state.Outlook?.Actions ?? [],
        DataAge = state.Climate.OldestInput,
    };
}
