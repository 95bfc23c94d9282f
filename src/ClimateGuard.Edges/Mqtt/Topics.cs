namespace ClimateGuard.Edges.Mqtt;

/// <summary>The names of all topics of one cell, in one place.</summary>
public sealed class Topics
{
    /// <summary>The default place of readings.</summary>
    public const string DefaultReadingFilter = "cg/{cell}/reading/{sensor}";

    private readonly string root;
    private readonly string machines;

    /// <summary>The topics of a cell.</summary>
    /// <param name="cell">Id of the cell.</param>
    public Topics(string cell)
    {
        ArgumentException.ThrowIfNullOrEmpty(cell);
        Cell = cell;
        root = $"cg/{cell}/";
        machines = root + "machine/";
        EventFilters =
        [
            machines + "+/job",
            machines + "+/permit/request",
            machines + "+/measurement",
            machines + "+/event/+",
            Door,
        ];
    }

    /// <summary>Id of the cell.</summary>
    public string Cell { get; }

    /// <summary>Alerts, not retained.</summary>
    public string Alert => root + "alert";

    /// <summary>Findings, not retained.</summary>
    public string Finding => root + "finding";

    /// <summary>Whether the worker is there; retained, and the last will.</summary>
    public string WorkerStatus => root + "worker/status";

    /// <summary>What people read; everything else may go to a machine.</summary>
    public IReadOnlyCollection<string> ToPeople => [Alert, Finding, WorkerStatus];

    /// <summary>A door moved.</summary>
    public string Door => root + "event/door";

    /// <summary>What to subscribe to for events.</summary>
    public IReadOnlyList<string> EventFilters { get; }

    /// <summary>The outlook of a machine; retained.</summary>
    public string Outlook(string machine) => $"{machines}{machine}/outlook";

    /// <summary>What is loaded on a machine.</summary>
    public string Job(string machine) => $"{machines}{machine}/job";

    /// <summary>Measurements at a machine.</summary>
    public string Measurement(string machine) => $"{machines}{machine}/measurement";

    /// <summary>Where a control asks for a permit.</summary>
    public string PermitRequest(string machine) => $"{machines}{machine}/permit/request";

    /// <summary>Where the answer goes when the request named no response topic.</summary>
    public string PermitAnswer(string machine) => $"{machines}{machine}/permit/answer";

    /// <summary>For a discrete output: <c>1</c> while a permit holds, else <c>0</c>; told every second.</summary>
    public string PermitLine(string machine) => $"{machines}{machine}/permit/line";

    /// <summary>For a discrete output: counts up every second; when it stands still, the line counts as 0.</summary>
    public string PermitHeartbeat(string machine) => $"{machines}{machine}/permit/heartbeat";

    /// <summary>An event of a machine.</summary>
    /// <param name="machine">Id of the machine.</param>
    /// <param name="type">One of <see cref="Json.EventTypes.OnMachineEventTopic"/>.</param>
    public string Event(string machine, string type) => $"{machines}{machine}/event/{type}";

    /// <summary>The default topic of a sensor.</summary>
    public string Reading(string sensor) => $"{root}reading/{sensor}";

    /// <summary>What kind of event a topic carries, and of which machine.</summary>
    /// <param name="topic">A topic as received.</param>
    /// <param name="address">The event's type and machine.</param>
    /// <returns>False when it is not the topic of an event, for example that of a reading.</returns>
    public bool TryReadEvent(string topic, out EventAddress address)
    {
        ArgumentNullException.ThrowIfNull(topic);
        address = default;
        if (topic == Door)
        {
            address = new EventAddress(Json.EventTypes.Door, null);
            return true;
        }

        if (!topic.StartsWith(machines, StringComparison.Ordinal))
        {
            return false;
        }

        var end = topic.IndexOf('/', machines.Length);
        if (end <= machines.Length)
        {
            return false;
        }

        var type = topic[(end + 1)..] switch
        {
            "job" => Json.EventTypes.Job,
            "measurement" => Json.EventTypes.Measurement,
            "permit/request" => Json.EventTypes.PermitRequest,
            var rest when rest.StartsWith("event/", StringComparison.Ordinal) => rest["event/".Length..],
            _ => null,
        };
        address = new EventAddress(type ?? "", topic[machines.Length..end]);
        return type is not null;
    }
}

/// <summary>Where an event topic points.</summary>
/// <param name="Type">The type of the event as the topic names it; may be unknown.</param>
/// <param name="Machine">Id of the machine, or null for the whole cell.</param>
public readonly record struct EventAddress(string Type, string? Machine);
