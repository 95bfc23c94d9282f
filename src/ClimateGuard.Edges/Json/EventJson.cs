using System.Text.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Json;

/// <summary>Writes events as they are read: for the ledger, events.jsonl, and whoever publishes them.</summary>
public static class EventJson
{
    /// <summary>The type of an event, one of <see cref="EventTypes"/>.</summary>
    public static string TypeOf(CellEvent happened) => happened switch
    {
        JobLoaded => EventTypes.Job,
        PermitRequested => EventTypes.PermitRequest,
        CutMoved { Started: true } => EventTypes.CutStarted,
        CutMoved => EventTypes.CutFinished,
        DatumProbed => EventTypes.DatumProbed,
        Measured => EventTypes.Measurement,
        CoolantSwitched => EventTypes.Coolant,
        MachineRunning => EventTypes.MachineState,
        DoorMoved => EventTypes.Door,
        Overridden => EventTypes.Override,
        OffsetSet => EventTypes.OffsetSet,
        PolicyReset => EventTypes.PolicyReset,
        FindingOutcome => EventTypes.FindingOutcome,
        _ => throw new ArgumentOutOfRangeException(nameof(happened), happened, "This kind of event has no name in the contract."),
    };

    /// <summary>One JSON object with <c>time</c> and <c>type</c>, as a line of events.jsonl.</summary>
    public static byte[] ToUtf8(CellEvent happened)
    {
        ArgumentNullException.ThrowIfNull(happened);
        return JsonText.ToUtf8(happened, static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteTime("time", value.Time);
            writer.WriteString("type", TypeOf(value));
            WriteFields(writer, value);
            writer.WriteEndObject();
        });
    }

    private static void WriteFields(Utf8JsonWriter writer, CellEvent happened)
    {
        if (happened is MachineEvent atMachine)
        {
            writer.WriteString("machine", atMachine.Machine);
        }

        switch (happened)
        {
            case JobLoaded job:
                Job(writer, job);
                break;
            case PermitRequested request:
                Request(writer, request);
                break;
            case CutMoved cut:
                Work(writer, cut.Serial, null, cut.Operation);
                Optional(writer, "feature", cut.Feature);
                Optional(writer, "hole", cut.Hole);
                Optional(writer, "tool", cut.Tool);
                break;
            case DatumProbed probed:
                Axes(writer, probed.Axes);
                break;
            case Measured measured:
                Measurement(writer, measured);
                break;
            case Overridden taken:
                Work(writer, taken.Serial, null, taken.Operation);
                writer.WriteString("by", taken.By);
                Optional(writer, "approvedBy", taken.ApprovedBy);
                writer.WriteString("reason", taken.Reason);
                writer.WriteTime("until", taken.Until);
                break;
            default:
                Switched(writer, happened);
                break;
        }
    }

    private static void Switched(Utf8JsonWriter writer, CellEvent happened)
    {
        switch (happened)
        {
            case CoolantSwitched coolant:
                writer.WriteBoolean("on", coolant.On);
                if (coolant.Dry)
                {
                    writer.WriteBoolean("dry", true);
                }

                break;
            case MachineRunning running:
                writer.WriteBoolean("running", running.Running);
                Optional(writer, "powerKw", running.PowerKilowatts);
                Optional(writer, "spindleRpm", running.SpindleRevolutionsPerMinute);
                break;
            case OffsetSet offset:
                writer.WriteString("serial", offset.Serial);
                writer.WriteNumber("scale", offset.ScaleFactor);
                writer.WriteNumber("shiftXUm", offset.ShiftXMicrometres);
                writer.WriteNumber("shiftYUm", offset.ShiftYMicrometres);
                writer.WriteNumber("shiftZUm", offset.ShiftZMicrometres);
                writer.WriteString("by", offset.By);
                break;
            case PolicyReset reset:
                writer.WriteString("by", reset.By);
                break;
            case FindingOutcome outcome:
                FindingOutcomeFields.Write(writer, outcome);
                break;
            case DoorMoved door:
                writer.WriteString("sensor", door.Sensor);
                writer.WriteBoolean("open", door.Open);
                break;
        }
    }

    private static void Axes(Utf8JsonWriter writer, IReadOnlyList<Axis> axes)
    {
        writer.WriteStartArray("axes");
        foreach (var axis in axes)
        {
            writer.WriteStringValue(NameOf(axis));
        }

        writer.WriteEndArray();
    }

    private static void Job(Utf8JsonWriter writer, JobLoaded job)
    {
        Work(writer, job.Serial, job.Part, job.Operation);
        Optional(writer, "pallet", job.Pallet);
        Optional(writer, "nest", job.Nest);
        Optional(writer, "batch", job.Batch);
        Optional(writer, "operator", job.Operator);
        Optional(writer, "program", job.Program);
        Optional(writer, "plannedMinutes", job.Planned?.TotalMinutes);
        Optional(writer, "origin", job.Origin);
        if (job.EnteredCell is { } entered)
        {
            writer.WriteTime("enteredCell", entered);
        }

        Optional(writer, "startC", job.Start?.Value);
        Optional(writer, "startU", job.StartUncertainty?.Value);
    }

    private static void Request(Utf8JsonWriter writer, PermitRequested request)
    {
        Work(writer, request.Serial, request.Part, request.Operation);
        Optional(writer, "feature", request.Feature);
        Optional(writer, "plannedMinutes", request.Planned?.TotalMinutes);
        writer.WriteString("requestId", request.RequestId);
        if (request.SentAt is { } sent)
        {
            writer.WriteTime("sentAt", sent);
        }

        Optional(writer, "program", request.Program);
        Optional(writer, "tool", request.Tool);
    }

    private static void Measurement(Utf8JsonWriter writer, Measured measured)
    {
        switch (measured)
        {
            case DatumReprobed reprobed:
                writer.WriteString("kind", "reprobe");
                writer.WriteString("axis", NameOf(reprobed.Axis));
                writer.WriteNumber("deltaUm", reprobed.DeltaMicrometres);
                writer.WriteNumber("uUm", reprobed.UMicrometres);
                break;
            case SpanProbed span:
                writer.WriteString("kind", "span");
                writer.WriteNumber("lengthMm", span.LengthMillimetres);
                writer.WriteNumber("errorUm", span.ErrorMicrometres);
                writer.WriteNumber("uUm", span.UMicrometres);
                break;
            case ContactMeasured contact:
                writer.WriteString("kind", "contact");
                writer.WriteNumber("valueC", contact.Value.Value);
                writer.WriteNumber("uC", contact.Uncertainty.Value);
                break;
        }
    }

    private static void Work(Utf8JsonWriter writer, string serial, string? part, string operation)
    {
        writer.WriteString("serial", serial);
        Optional(writer, "part", part);
        writer.WriteString("operation", operation);
    }

    private static string NameOf(Axis axis) => axis switch
    {
        Axis.X => "x",
        Axis.Y => "y",
        _ => "z",
    };

    private static void Optional(Utf8JsonWriter writer, string name, string? value)
    {
        if (value is not null)
        {
            writer.WriteString(name, value);
        }
    }

    private static void Optional(Utf8JsonWriter writer, string name, double? value)
    {
        if (value is { } number)
        {
            writer.WriteNumber(name, number);
        }
    }
}
