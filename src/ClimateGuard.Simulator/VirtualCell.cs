using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A cell that does not exist: room, machines, parts and sensors with their own physics, told by a script.</summary>
/// <remarks>
/// It knows the description of a cell and nothing of the product's model. Deterministic: the same cell, seed, start and script give the
/// same signals, whatever the size of the steps in which it is advanced. Not safe across threads.
/// </remarks>
public sealed class VirtualCell
{
    private readonly VirtualMachine[] machines;
    private readonly VirtualZone?[] machineZones;
    private readonly SensorModel[] sensors;
    private readonly bool[] contacts;
    private readonly bool?[] saidRunning;
    private readonly double[] loads;
    private readonly SignalGate gate = new();
    private readonly List<CutRecord> cuts = [];
    private readonly List<AskRecord> asks = [];
    private readonly List<Announcement> told = [];
    private readonly ScriptPlayer player;
    private readonly LocalClock clock;
    private readonly ShiftCalendar calendar;
    private readonly long startMilliseconds;
    private readonly long stepMilliseconds;
    private readonly int seed;
    private readonly double chanceScale;
    private bool sensorsRestart;
    private long nowMilliseconds;

    /// <summary>Builds the cell and lets it live through its silent past.</summary>
    /// <param name="description">The cell.</param>
    /// <param name="options">Seed, start and script.</param>
    public VirtualCell(Cell description, VirtualCellOptions options)
    {
        ArgumentNullException.ThrowIfNull(description);
        ArgumentNullException.ThrowIfNull(options);
        Description = description;
        (seed, chanceScale) = (options.Seed, options.ChanceScale);
        Weather = new CellWeather(options.Climate);
        startMilliseconds = options.Start.ToUnixTimeMilliseconds();
        stepMilliseconds = (long)options.Step.TotalMilliseconds;
        Room = new VirtualRoom(description.Description, seed, chanceScale, options.Step);
        machines = [.. description.Machines.Select(m => new VirtualMachine(m, ChanceOf(m.Id), chanceScale))];
        machineZones = [.. machines.Select(m => Room.FindZone(m.Machine.Zone))];
        contacts = new bool[description.Sensors.Count];
        saidRunning = new bool?[machines.Length];
        loads = new double[Room.Zones.Count];
        clock = new LocalClock(description.Description.TimeZone);
        calendar = new ShiftCalendar(description.Description.Policies.Shifts);
        Chance = ChanceOf("measurements");
        nowMilliseconds = startMilliseconds - ((long)options.Past.TotalMilliseconds / stepMilliseconds * stepMilliseconds);
        foreach (var zone in Room.Zones) zone.SetpointCelsius = options.PastSetpointCelsius ?? zone.SetpointCelsius;
        while (nowMilliseconds < startMilliseconds) Physics();
        var sources = new SensorSources(this);
        sensors = [.. description.Sensors.Select((s, i) => new SensorModel(s, i, sources.Behind(s, i), seed, startMilliseconds))];
        player = new ScriptPlayer(options.Script, startMilliseconds);
        Truth = options.KeepsTruth ? new TruthLog(description) : null;
    }

    /// <summary>The description it was made from.</summary>
    public Cell Description { get; }

    /// <summary>Event time now.</summary>
    public DateTimeOffset Now => DateTimeOffset.FromUnixTimeMilliseconds(nowMilliseconds);

    /// <summary>The room.</summary>
    public VirtualRoom Room { get; }

    /// <summary>The machines, in the order of the plant file.</summary>
    public IReadOnlyList<VirtualMachine> Machines => machines;

    /// <summary>What was true at each cut so far.</summary>
    public IReadOnlyList<CutRecord> Cuts => cuts;

    /// <summary>Each request for a permit so far.</summary>
    public IReadOnlyList<AskRecord> Asks => asks;

    /// <summary>What the story told of itself so far.</summary>
    public IReadOnlyList<Announcement> Told => told;

    /// <summary>The truth minute by minute, or null when it is not kept.</summary>
    public TruthLog? Truth { get; }

    /// <summary>Whether signals leave the cell; during an outage they wait.</summary>
    public bool BrokerReachable => gate.IsOpen(nowMilliseconds);

    /// <summary>What the shop does now.</summary>
    public ShopPhase Phase { get; private set; }

    /// <summary>Hall, outdoors, store, measuring room, chilled water.</summary>
    public CellWeather Weather { get; }

    /// <summary>Relative humidity of the enclosure, in %.</summary>
    public double HumidityPercent => Room.Moisture.Percent(Room.Zones[0].LowCelsius);

    internal PowerSupply Power { get; } = new();

    internal Chance Chance { get; }

    /// <summary>Lets time pass and gives what was said, in the order of event time (after an outage, what had to wait comes first).</summary>
    public IReadOnlyList<CellSignal> Advance(TimeSpan duration)
    {
        var said = new List<CellSignal>();
        Advance(Now + duration, r => said.Add(CellSignal.Of(r)), e => said.Add(CellSignal.Of(e)));
        return said;
    }

    /// <summary>Lets time pass up to the last whole step before a time, handing over each signal as it is said.</summary>
    public void Advance(DateTimeOffset until, Action<Reading> onReading, Action<CellEvent> onEvent)
    {
        ArgumentNullException.ThrowIfNull(onReading);
        ArgumentNullException.ThrowIfNull(onEvent);
        var end = until.ToUnixTimeMilliseconds();
        while (nowMilliseconds + stepMilliseconds <= end)
        {
            Step();
            gate.Deliver(nowMilliseconds, onReading, onEvent);
        }
    }

    /// <summary>The machine of that id, or null.</summary>
    public VirtualMachine? FindMachine(string? id)
    {
        foreach (var machine in machines)
        {
            if (machine.Machine.Id == id) return machine;
        }

        return null;
    }

    /// <summary>Does something now, outside the script; the signals it causes come with the next step.</summary>
    public void Do(CellAction action)
    {
        ArgumentNullException.ThrowIfNull(action);
        action.Apply(this, Now);
    }

    internal VirtualMachine MachineOf(string id) =>
        FindMachine(id) ?? throw new ArgumentException($"No machine '{id}' in cell '{Description.Id}'.");

    internal SensorModel SensorOf(string id)
    {
        var index = Description.IndexOfSensor(id);
        return index >= 0 ? sensors[index] : throw new ArgumentException($"No sensor '{id}' in cell '{Description.Id}'.");
    }

    internal Chance ChanceOf(string name) => new(seed, name);

    internal bool ContactOpen(int sensor) => contacts[sensor];

    /// <summary>Moves a contact; whether it was news.</summary>
    internal bool SetContact(int sensor, bool open)
    {
        if (contacts[sensor] == open) return false;
        contacts[sensor] = open;
        return true;
    }

    internal void Say(CellEvent cellEvent) => gate.Buffer.Add(CellSignal.Of(cellEvent));

    internal void HoldSignalsUntil(DateTimeOffset until) => gate.ShutUntil(until);

    internal void Later(DateTimeOffset at, CellAction action) => player.Later(at, action);

    internal void RecordAsk(AskRecord ask) => asks.Add(ask);

    internal void Tell(Announcement announcement) => told.Add(announcement);

    internal void RecordCut(VirtualMachine machine, DateTimeOffset at)
    {
        if (machine.Part is { } part) cuts.Add(new CutRecord(at, machine.Machine.Id, part.Serial, part.Part.Number, machine.Truth()));
    }

    internal void Load(VirtualMachine machine, string serial, string partNumber, double celsius)
    {
        machine.CoolantOn = false;
        if (serial.Length == 0)
        {
            machine.Part = null;
            return;
        }

        var part = Description.FindPart(partNumber) ?? throw new ArgumentException($"No part '{partNumber}' in cell '{Description.Id}'.");

        // The same part number has the same truth each time: its film and its melt do not change from serial to serial.
        machine.Part = new VirtualPart(part, serial, celsius, ChanceOf(partNumber), chanceScale);
    }

    private void Step()
    {
        var end = nowMilliseconds + stepMilliseconds;
        while (player.Next(end, out var at) is { } action) action.Apply(this, at);
        var begin = Now;
        Physics();
        SayWhoRuns(begin);
        if (Truth is { } truth)
        {
            foreach (var machine in machines) truth.Note(machine, nowMilliseconds);
        }

        var seconds = stepMilliseconds / 1000.0;
        foreach (var sensor in sensors) sensor.Follow(seconds);
        foreach (var sensor in sensors) sensor.Powered(Power.On, sensorsRestart);
        sensorsRestart = false;
        foreach (var sensor in sensors) sensor.Speak(nowMilliseconds, gate.Buffer);
    }

    private void Physics()
    {
        var local = clock.Local(nowMilliseconds);
        var seconds = stepMilliseconds / 1000.0;
        Phase = calendar.At(local);
        Weather.At(local);
        if (Power.Feed(Now, Room)) sensorsRestart = true;
        var lights = Phase == ShopPhase.Off || !Power.On ? 0.0 : 3000.0;
        var humidity = HumidityPercent;
        Array.Fill(loads, lights);
        for (var i = 0; i < machines.Length; i++)
        {
            var zone = machineZones[i];
            machines[i].Advance(zone?.LowCelsius ?? 20.0, humidity, Phase, Power.On, seconds);
            for (var z = 0; z < loads.Length; z++)
            {
                if (ReferenceEquals(Room.Zones[z], zone)) loads[z] += machines[i].HeatWatts;
            }
        }

        Room.Advance(Weather, loads, seconds);
        nowMilliseconds += stepMilliseconds;
    }

    // The first step says it of every machine; later only a change is news.
    private void SayWhoRuns(DateTimeOffset at)
    {
        for (var i = 0; i < machines.Length; i++)
        {
            var machine = machines[i];
            if (saidRunning[i] == machine.Running) continue;
            saidRunning[i] = machine.Running;
            Say(new MachineRunning(at, machine.Machine.Id, machine.Running, machine.PowerKilowatts, machine.SpindleRevolutionsPerMinute));
        }
    }
}
