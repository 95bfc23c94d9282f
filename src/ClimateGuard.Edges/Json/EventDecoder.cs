using System.Text.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Json;

/// <summary>Reads events from MQTT payloads, lines of events.jsonl and HTTP bodies; they have the same fields everywhere.</summary>
/// <remarks>
/// Whether machine, part and sensor exist is judged where the cell is known, not here. Texts hold at most 200 characters and no control
/// characters. A time is named <c>time</c> or <c>t</c>; both are taken everywhere, and <c>time</c> wins.
/// </remarks>
public static class EventDecoder
{
    /// <summary>The largest payload that is looked at, in bytes.</summary>
    public const int MostBytes = 64 * 1024;

    /// <summary>Reads a payload whose type and machine are known from elsewhere, such as its topic or address.</summary>
    /// <param name="type">One of <see cref="EventTypes"/>.</param>
    /// <param name="machine">Id of the machine, or null when the payload names it (or the event has none).</param>
    /// <param name="payload">A JSON object; empty on a job means that nothing is loaded.</param>
    /// <param name="arrivedAt">Stands in when the payload names no time.</param>
    public static EventResult Decode(string type, string? machine, ReadOnlyMemory<byte> payload, DateTimeOffset arrivedAt)
    {
        ArgumentNullException.ThrowIfNull(type);
        return payload.Length == 0 && type == EventTypes.Job && machine is not null
            ? new EventResult(new JobLoaded(arrivedAt, machine) { Serial = "", Part = "" }, true, null)
            : Parse(payload, element => Read(new JsonFields(element, type), type, machine, arrivedAt));
    }

    /// <summary>Reads a line of events.jsonl, which must name <c>time</c> and <c>type</c>.</summary>
    public static EventResult DecodeLine(ReadOnlyMemory<byte> line) => DecodeSelfDescribed(line, null);

    /// <summary>Reads an HTTP body, which must name <c>type</c> and may name <c>time</c>.</summary>
    public static EventResult DecodeBody(ReadOnlyMemory<byte> body, DateTimeOffset arrivedAt) => DecodeSelfDescribed(body, arrivedAt);

    private static EventResult Refused(string reason) => new(null, false, reason);

    private static EventResult DecodeSelfDescribed(ReadOnlyMemory<byte> payload, DateTimeOffset? arrivedAt) => Parse(payload, element =>
    {
        var fields = new JsonFields(element, "event");
        var type = fields.Text("type");
        if (fields.Problem is { } problem)
        {
            return Refused(problem);
        }

        return Read(new JsonFields(element, Printable.Clean(type, 40)), type, null, arrivedAt);
    });

    private static EventResult Parse(ReadOnlyMemory<byte> payload, Func<JsonElement, EventResult> read)
    {
        const string allowed = "a JSON object with the fields of the event is allowed";
        if (payload.Length == 0)
        {
            return Refused($"the event is empty; {allowed}");
        }

        if (payload.Length > MostBytes)
        {
            return Refused($"the event has {payload.Length} bytes; at most {MostBytes} are read");
        }

        try
        {
            using var document = JsonDocument.Parse(payload);
            return document.RootElement.ValueKind == JsonValueKind.Object
                ? read(document.RootElement)
                : Refused($"the event is {Printable.Start(payload.Span, 40)}; {allowed}");
        }
        catch (JsonException broken)
        {
            return Refused($"the event is not JSON (byte {broken.BytePositionInLine}); {allowed}");
        }
        catch (InvalidOperationException)
        {
            // A text with half a surrogate pair, or bytes that are not UTF-8, shows only when it is read.
            return Refused($"the event holds text that is not valid UTF-8; {allowed}");
        }
    }

    private static EventResult Read(JsonFields fields, string type, string? machine, DateTimeOffset? arrivedAt)
    {
        var stated = fields.Has("time") ? fields.OptionalTime("time") : fields.OptionalTime("t");
        if (stated is null && arrivedAt is null && fields.Problem is null)
        {
            fields.Time("time");
        }

        var time = stated ?? arrivedAt ?? default;
        var at = type is EventTypes.Door or EventTypes.PolicyReset or EventTypes.FindingOutcome ? "" : MachineOf(fields, machine);
        var found = ReadAs(fields, type, time, at);
        return fields.Problem is { } problem ? Refused(problem) : new EventResult(found, stated is null, null);
    }

    private static string MachineOf(JsonFields fields, string? machine)
    {
        if (machine is null)
        {
            return fields.Text("machine");
        }

        var named = fields.OptionalText("machine");
        if (named is not null && named != machine)
        {
            fields.Refuse("machine", $"\"{Printable.Clean(named, 40)}\"", $"\"{Printable.Clean(machine, 40)}\", where it was sent to,");
        }

        return machine;
    }

    private static CellEvent? ReadAs(JsonFields fields, string type, DateTimeOffset time, string machine)
    {
        switch (type)
        {
            case EventTypes.Job:
                return Job(fields, time, machine);
            case EventTypes.PermitRequest:
                return Request(fields, time, machine);
            case EventTypes.CutStarted or EventTypes.CutFinished:
                return Cut(fields, time, machine, type == EventTypes.CutStarted);
            case EventTypes.DatumProbed:
                return new DatumProbed(time, machine, fields.Axes("axes"));
            case EventTypes.Measurement:
                return Measurement(fields, time, machine);
            case EventTypes.Coolant:
                return new CoolantSwitched(time, machine, fields.Flag("on"), fields.OptionalFlag("dry"));
            case EventTypes.MachineState:
                return new MachineRunning(
                    time,
                    machine,
                    fields.Flag("running"),
                    fields.OptionalNumber("powerKw", 0, 10_000, "kW"),
                    fields.OptionalNumber("spindleRpm", 0, 500_000, "1/min"));
            case EventTypes.Door:
                return new DoorMoved(time, fields.Text("sensor"), fields.Flag("open"));
            case EventTypes.FindingOutcome:
                return FindingOutcomeFields.Read(fields, time);
            case EventTypes.PolicyReset:
                return new PolicyReset(time, fields.Text("by"));
            case EventTypes.Override:
                return Override(fields, time, machine);
            case EventTypes.OffsetSet:
                return Offset(fields, time, machine);
            default:
                fields.Refuse($"this type of event is not known; allowed are {string.Join(", ", EventTypes.All)}");
                return null;
        }
    }

    private static JobLoaded Job(JsonFields fields, DateTimeOffset time, string machine)
    {
        var serial = fields.Text("serial", mayBeEmpty: true);
        if (serial.Length == 0)
        {
            return new JobLoaded(time, machine) { Serial = "", Part = "" };
        }

        var start = fields.OptionalNumber("startC", -90, 400, "°C");
        var uncertainty = fields.OptionalNumber("startU", 0, 100, "K");
        if (uncertainty is not null && !fields.Has("startC"))
        {
            fields.Refuse("field \"startU\" stands alone; it is the uncertainty of \"startC\", which is missing");
        }

        return new JobLoaded(time, machine)
        {
            Serial = serial,
            Part = fields.Text("part"),
            Operation = fields.Text("operation"),
            Pallet = fields.OptionalText("pallet"),
            Nest = fields.OptionalText("nest"),
            Batch = fields.OptionalText("batch"),
            Operator = fields.OptionalText("operator"),
            Program = fields.OptionalText("program"),
            Planned = fields.OptionalMinutes("plannedMinutes"),
            Origin = fields.OptionalText("origin"),
            EnteredCell = fields.OptionalTime("enteredCell"),
            Start = start is { } celsius ? new Celsius(celsius) : null,
            StartUncertainty = uncertainty is { } kelvins ? new Kelvins(kelvins) : null,
        };
    }

    private static PermitRequested Request(JsonFields fields, DateTimeOffset time, string machine) => new(time, machine)
    {
        Serial = fields.Text("serial"),
        Part = fields.Text("part"),
        Operation = fields.Text("operation"),
        Feature = fields.OptionalText("feature"),
        Planned = fields.OptionalMinutes("plannedMinutes"),
        RequestId = fields.Text("requestId"),
        SentAt = fields.OptionalTime("sentAt"),
        Program = fields.OptionalText("program"),
        Tool = fields.OptionalText("tool"),
    };

    private static CutMoved Cut(JsonFields fields, DateTimeOffset time, string machine, bool started) => new(time, machine)
    {
        Started = started,
        Serial = fields.Text("serial"),
        Operation = fields.Text("operation"),
        Feature = fields.OptionalText("feature"),
        Hole = fields.OptionalWhole("hole", 0, 1_000_000),
        Tool = fields.OptionalText("tool"),
    };

    private static Measured? Measurement(JsonFields fields, DateTimeOffset time, string machine)
    {
        var kind = fields.Text("kind");
        switch (kind)
        {
            case "reprobe":
                return new DatumReprobed(time, machine)
                {
                    Axis = fields.SingleAxis("axis"),
                    DeltaMicrometres = fields.Number("deltaUm", -100_000, 100_000, "µm"),
                    UMicrometres = fields.Number("uUm", 0, 10_000, "µm"),
                };
            case "span":
                return new SpanProbed(time, machine)
                {
                    LengthMillimetres = fields.Number("lengthMm", 0.001, 20_000, "mm"),
                    ErrorMicrometres = fields.Number("errorUm", -100_000, 100_000, "µm"),
                    UMicrometres = fields.Number("uUm", 0, 10_000, "µm"),
                };
            case "contact":
                return new ContactMeasured(time, machine)
                {
                    Value = new Celsius(fields.Number("valueC", -90, 400, "°C")),
                    Uncertainty = new Kelvins(fields.Number("uC", 0, 100, "K")),
                };
            default:
                fields.Refuse("kind", $"\"{Printable.Clean(kind, 40)}\"", "\"reprobe\", \"span\" or \"contact\"");
                return null;
        }
    }

    private static OffsetSet Offset(JsonFields fields, DateTimeOffset time, string machine) => new(time, machine)
    {
        Serial = fields.Text("serial"),
        ScaleFactor = fields.Number("scale", 0.99, 1.01, "times"),
        ShiftXMicrometres = fields.OptionalNumber("shiftXUm", -10_000, 10_000, "µm") ?? 0,
        ShiftYMicrometres = fields.OptionalNumber("shiftYUm", -10_000, 10_000, "µm") ?? 0,
        ShiftZMicrometres = fields.OptionalNumber("shiftZUm", -10_000, 10_000, "µm") ?? 0,
        By = fields.Text("by"),
    };

    private static Overridden Override(JsonFields fields, DateTimeOffset time, string machine) => new(time, machine)
    {
        Serial = fields.Text("serial"),
        Operation = fields.Text("operation"),
        By = fields.Text("by"),
        ApprovedBy = fields.OptionalText("approvedBy"),
        Reason = fields.Text("reason"),
        Until = fields.Time("until"),
    };
}
