namespace ClimateGuard.Plant;

/// <summary>Something that happened in the cell, other than a reading. A closed set.</summary>
/// <param name="Time">Event time.</param>
public abstract record CellEvent(DateTimeOffset Time);

/// <summary>Something that happened at one machine.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Machine">Id of the machine.</param>
public abstract record MachineEvent(DateTimeOffset Time, string Machine) : CellEvent(Time);

/// <summary>A part is on the machine, or nothing is (empty serial).</summary>
public sealed record JobLoaded(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine)
{
    /// <summary>Serial number; empty when the machine was unloaded.</summary>
    public required string Serial { get; init; }

    /// <summary>Part number; empty when the machine was unloaded.</summary>
    public required string Part { get; init; }

    /// <summary>Operation, such as 40.</summary>
    public string Operation { get; init; } = "";

    /// <summary>Pallet, or null.</summary>
    public string? Pallet { get; init; }

    /// <summary>Its place on a pallet that holds several parts, or null.</summary>
    public string? Nest { get; init; }

    /// <summary>Material batch or heat, or null.</summary>
    public string? Batch { get; init; }

    /// <summary>Who works at the machine, or null.</summary>
    public string? Operator { get; init; }

    /// <summary>Program with its revision, or null.</summary>
    public string? Program { get; init; }

    /// <summary>How long the finish cut is planned to take, or null for the features' own times.</summary>
    public TimeSpan? Planned { get; init; }

    /// <summary>Where it came from: hall, storage, wash or the id of a machine; null when nobody said.</summary>
    public string? Origin { get; init; }

    /// <summary>When the part came into the enclosure, or null.</summary>
    public DateTimeOffset? EnteredCell { get; init; }

    /// <summary>Part temperature at <see cref="EnteredCell"/>, else at the event; null when nobody measured it.</summary>
    public Celsius? Start { get; init; }

    /// <summary>Standard uncertainty of <see cref="Start"/>, or null.</summary>
    public Kelvins? StartUncertainty { get; init; }

    /// <summary>Nothing is loaded.</summary>
    public bool IsUnload => Serial.Length == 0;
}

/// <summary>A control asks whether a finish cut may start.</summary>
public sealed record PermitRequested(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine)
{
    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Part number.</summary>
    public required string Part { get; init; }

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>The feature about to be cut, or null for all of the operation.</summary>
    public string? Feature { get; init; }

    /// <summary>How long the cut is planned to take, or null.</summary>
    public TimeSpan? Planned { get; init; }

    /// <summary>The sender's id of the request; the same id gets the same answer.</summary>
    public required string RequestId { get; init; }

    /// <summary>When the control sent it, or null.</summary>
    public DateTimeOffset? SentAt { get; init; }

    /// <summary>Program with its revision, or null.</summary>
    public string? Program { get; init; }

    /// <summary>The tool, or null.</summary>
    public string? Tool { get; init; }
}

/// <summary>A finish cut began or ended.</summary>
public sealed record CutMoved(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine)
{
    /// <summary>True at the begin, false at the end.</summary>
    public required bool Started { get; init; }

    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>Feature, or null.</summary>
    public string? Feature { get; init; }

    /// <summary>Hole number in its feature, or null.</summary>
    public int? Hole { get; init; }

    /// <summary>The tool, or null.</summary>
    public string? Tool { get; init; }
}

/// <summary>The datum was probed and the work offset set: drift starts again from zero in these axes.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Axes">The axes that were set.</param>
public sealed record DatumProbed(DateTimeOffset Time, string Machine, IReadOnlyList<Axis> Axes) : MachineEvent(Time, Machine);

/// <summary>A setter has set an offset at the control: a scale factor on the program about the datum and a shift of the work offset.</summary>
/// <remarks>The program proposes and takes note; it never sets one. Probing the datum anew, or another part, ends it.</remarks>
public sealed record OffsetSet(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine)
{
    /// <summary>Serial number of the part it was set for.</summary>
    public required string Serial { get; init; }

    /// <summary>Factor on the program about the datum, near 1.</summary>
    public required double ScaleFactor { get; init; }

    /// <summary>Shift of the work offset in X, in µm.</summary>
    public double ShiftXMicrometres { get; init; }

    /// <summary>Shift of the work offset in Y, in µm.</summary>
    public double ShiftYMicrometres { get; init; }

    /// <summary>Shift of the work offset in Z, in µm.</summary>
    public double ShiftZMicrometres { get; init; }

    /// <summary>Who set it.</summary>
    public required string By { get; init; }
}

/// <summary>Something was measured at the machine.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Machine">Id of the machine.</param>
public abstract record Measured(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine);

/// <summary>The unmoved datum was probed again.</summary>
public sealed record DatumReprobed(DateTimeOffset Time, string Machine) : Measured(Time, Machine)
{
    /// <summary>The axis.</summary>
    public required Axis Axis { get; init; }

    /// <summary>New minus old reading of the unmoved datum, in µm; the negative of the drift since it was probed.</summary>
    public required double DeltaMicrometres { get; init; }

    /// <summary>Standard uncertainty, in µm.</summary>
    public required double UMicrometres { get; init; }
}

/// <summary>A known length on the part was probed: the part is its own thermometer.</summary>
public sealed record SpanProbed(DateTimeOffset Time, string Machine) : Measured(Time, Machine)
{
    /// <summary>The length, in mm.</summary>
    public required double LengthMillimetres { get; init; }

    /// <summary>Reading minus the length at 20 °C, in µm: L·(αp·dTp − αs·dTs).</summary>
    public required double ErrorMicrometres { get; init; }

    /// <summary>Standard uncertainty, in µm.</summary>
    public required double UMicrometres { get; init; }
}

/// <summary>The part's temperature was taken by contact.</summary>
public sealed record ContactMeasured(DateTimeOffset Time, string Machine) : Measured(Time, Machine)
{
    /// <summary>The temperature.</summary>
    public required Celsius Value { get; init; }

    /// <summary>Standard uncertainty.</summary>
    public required Kelvins Uncertainty { get; init; }
}

/// <summary>The coolant was switched.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="On">Whether it now runs over the part.</param>
/// <param name="Dry">With coolant that is off: the part was blown dry or wiped, nothing evaporates from it. False says that nobody knows.</param>
public sealed record CoolantSwitched(DateTimeOffset Time, string Machine, bool On, bool Dry = false) : MachineEvent(Time, Machine);

/// <summary>The machine started or stopped running.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Running">Whether it runs.</param>
/// <param name="PowerKilowatts">Power drawn, in kW, or null.</param>
/// <param name="SpindleRevolutionsPerMinute">Spindle speed, in 1/min, or null.</param>
public sealed record MachineRunning(
    DateTimeOffset Time, string Machine, bool Running, double? PowerKilowatts, double? SpindleRevolutionsPerMinute)
    : MachineEvent(Time, Machine);

/// <summary>A door of the enclosure opened or closed.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Sensor">Id of its contact.</param>
/// <param name="Open">Whether it is open.</param>
public sealed record DoorMoved(DateTimeOffset Time, string Sensor, bool Open) : CellEvent(Time);

/// <summary>A person takes the responsibility for a cut.</summary>
public sealed record Overridden(DateTimeOffset Time, string Machine) : MachineEvent(Time, Machine)
{
    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>Who.</summary>
    public required string By { get; init; }

    /// <summary>The second person, or null; a critical part needs one.</summary>
    public string? ApprovedBy { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }

    /// <summary>Until when.</summary>
    public required DateTimeOffset Until { get; init; }
}

/// <summary>A person says what was found at a check of a finding, or closes it.</summary>
/// <param name="Time">Event time.</param>
/// <param name="Finding">Id of the finding.</param>
/// <param name="By">Who.</param>
public sealed record FindingOutcome(DateTimeOffset Time, string Finding, string By) : CellEvent(Time)
{
    /// <summary>Whether it closes the finding; else it is the answer of a check.</summary>
    public bool Closes { get; init; }

    /// <summary>Of a check: the cause that was checked, null for that of the finding. Of a closing: the cause that was verified, null when none was found.</summary>
    public string? Cause { get; init; }

    /// <summary>Of a check: whether what is expected of that cause was seen.</summary>
    public bool Seen { get; init; }

    /// <summary>Of a closing: what fixed it, or null.</summary>
    public string? FixedBy { get; init; }
}

/// <summary>A person sets the limits that the cell moved by itself back to those of the plant file.</summary>
/// <param name="Time">Event time.</param>
/// <param name="By">Who.</param>
public sealed record PolicyReset(DateTimeOffset Time, string By) : CellEvent(Time);
