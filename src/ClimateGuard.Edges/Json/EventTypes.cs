namespace ClimateGuard.Edges.Json;

/// <summary>The names of events in files, topics and HTTP bodies.</summary>
public static class EventTypes
{
    /// <summary>A part is loaded, or nothing is.</summary>
    public const string Job = "job";

    /// <summary>A control asks for a permit.</summary>
    public const string PermitRequest = "permitRequest";

    /// <summary>A finish cut began.</summary>
    public const string CutStarted = "cutStarted";

    /// <summary>A finish cut ended.</summary>
    public const string CutFinished = "cutFinished";

    /// <summary>The datum was probed and the offset set.</summary>
    public const string DatumProbed = "datumProbed";

    /// <summary>A re-probe, a span probe or a contact temperature.</summary>
    public const string Measurement = "measurement";

    /// <summary>Coolant on or off.</summary>
    public const string Coolant = "coolant";

    /// <summary>The machine runs or stands.</summary>
    public const string MachineState = "machineState";

    /// <summary>A door moved.</summary>
    public const string Door = "door";

    /// <summary>A person takes the responsibility.</summary>
    public const string Override = "override";

    /// <summary>A setter has set an offset at the control.</summary>
    public const string OffsetSet = "offsetSet";

    /// <summary>A person sets the limits that the cell moved by itself back.</summary>
    public const string PolicyReset = "policyReset";

    /// <summary>A person says what was found at a check of a finding, or closes it.</summary>
    public const string FindingOutcome = "findingOutcome";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
        [Job, PermitRequest, CutStarted, CutFinished, DatumProbed, Measurement, Coolant, MachineState, Door, Override, OffsetSet, PolicyReset, FindingOutcome];

    /// <summary>Those that come on a machine's <c>event/{type}</c> topic.</summary>
    public static IReadOnlyList<string> OnMachineEventTopic { get; } =
        [Coolant, DatumProbed, CutStarted, CutFinished, MachineState, Override, OffsetSet];
}
