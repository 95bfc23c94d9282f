using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The scripted week of the sample cell, Monday 00:00 to Sunday 24:00: thirteen incidents among the ordinary jobs.</summary>
/// <remarks>Told for the sample cell; an incident whose machine, part or sensor another cell has not is left out.</remarks>
internal sealed class DemoWeek
{
    private const string Finish = "40";
    private readonly Cell cell;
    private readonly List<TimedAction> story = [];

    private DemoWeek(Cell cell) => this.cell = cell;

    public static IReadOnlyList<TimedAction> Of(Cell cell)
    {
        var week = new DemoWeek(cell);
        week.WeekEndAndMonday();
        week.Tuesday();
        week.Wednesday();
        week.Thursday();
        week.FridayToSunday();
        week.AfterTheWrongCalibration();
        week.OrdinaryJobs();
        return week.story;
    }

    private void WeekEndAndMonday()
    {
        // I1: the ring stayed on the gantry over the week-end; air recovers within the hour, ring and structure do not.
        Incident("I1", 0, 5, 0, "The week-end set-back of 22.6 °C ends; VR-780 was left on M4", "M4", "VR-780");
        Load(0, 0, 1, "M4", "VR-780", "VR-780-2201", 22.6, said: 0.3);
        foreach (var zone in cell.Zones) At(0, 5, 0, new MoveSetpoint(zone.Id, zone.Setpoint.Value));
        foreach (var hour in new[] { 6, 8 }) Ask(0, hour, 5, "M4", "groove");
        Ask(0, 9, 40, "M4", "groove");
        Cut(0, 9, 45, "M4", "groove", 20);
        Ask(0, 10, 10, "M4", "groove-depth");
        On("M4", () => At(0, 10, 15, new ReprobeDatum("M4", Axis.Z)));
        Ask(0, 10, 20, "M4", "groove-depth");
        Take(0, 11, 0, "M4");

        // I2: a blank from the cold store; rinsed, blown dry, probed again.
        Incident("I2", 0, 10, 20, "PC-620 comes from the store at 12 °C onto M2", "M2", "PC-620");
        Load(0, 10, 20, "M2", "PC-620", "PC-620-117", 12.4, said: 0.4, origin: "storage");
        Ask(0, 10, 40, "M2", "bores");
        Flood(0, 10, 45, "M2", 12);
        On("M2", () => At(0, 10, 58, new BlowDry("M2")));
        On("M2", () => At(0, 11, 0, new ProbeDatum("M2")));
        On("M2", () => At(0, 11, 2, new MeasureContact("M2")));
        Ask(0, 11, 5, "M2", "bores");
        Cut(0, 11, 7, "M2", "bores", 25);
        Take(0, 11, 40, "M2");
    }

    private void Tuesday()
    {
        Incident("I3", 1, 14, 0, "The loop of ahu2 was re-tuned and hunts until 18:00", "M3", "FD-1100");
        if (Unit("ahu2")) At(1, 14, 0, new RetuneLoop("ahu2", 10, TimeSpan.FromSeconds(400)));
        if (Unit("ahu2")) At(1, 18, 0, new RetuneLoop("ahu2", 2, TimeSpan.FromSeconds(1500)));
        Load(1, 13, 30, "M3", "FD-1100", "FD-1100-0441", 20.0, said: 0.2);
        foreach (var hour in new[] { 15, 16, 17 }) Ask(1, hour, 5, "M3", "bolt-circle");
        Cut(1, 17, 7, "M3", "bolt-circle", 35);
        Take(1, 18, 30, "M3");
    }

    private void Wednesday()
    {
        Incident("I4", 2, 11, 0, "The filter of ahu1 is loaded: 60 % of its flow until 19:00, in a heat wave", "M2", "OB-900");
        if (Unit("ahu1")) At(2, 11, 0, new LoadFilter("ahu1", 0.6, 3.6));
        if (Unit("ahu1")) At(2, 19, 0, new LoadFilter("ahu1", 1, 0));
        Load(2, 8, 0, "M2", "OB-900", "OB-900-0077", 20.0, said: 0.2);
        foreach (var (hour, minute) in new[] { (13, 0), (14, 40), (16, 0), (19, 20), (21, 20) }) Ask(2, hour, minute, "M2", "dowels");
        On("M2", () => At(2, 13, 40, new ProbeSpan("M2", 800)));
        Cut(2, 21, 30, "M2", "dowels", 60);
        Take(2, 22, 45, "M2");
        Incident("I5", 2, 17, 10, "The sun shines on the sensor s4 through the roof light until 18:25", null, null);
        if (cell.IndexOfSensor("air/s4") >= 0)
            story.AddRange(FaultCatalogue.Script(cell, "F18", "air/s4", On(2, 17, 10), On(2, 18, 25)));
    }

    private void Thursday()
    {
        Incident("I6", 3, 9, 15, "The coolant chiller of M3 trips; the air stays at 20 °C", "M3", "FD-1100");
        Load(3, 8, 0, "M3", "FD-1100", "FD-1100-0442", 20.0, said: 0.2);
        On("M3", () => At(3, 8, 10, new SwitchCoolant("M3", true)));
        On("M3", () => At(3, 9, 15, new TripChiller("M3", true)));
        foreach (var minute in new[] { 20, 46 }) Ask(3, 9, minute, "M3", "bolt-circle");
        Incident("I7", 3, 10, 5, "The operator overrides the hold and cuts 24 holes until 10:40", "M3", "FD-1100");
        On("M3", () => At(3, 10, 4, new Override("M3", Finish, "K. Brandt", "deadline", TimeSpan.FromMinutes(60)) { ApprovedBy = "S. Ott" }));
        Ask(3, 10, 5, "M3", "bolt-circle");
        Cut(3, 10, 5, "M3", "bolt-circle", 35);
        Take(3, 10, 45, "M3");
        On("M3", () => At(3, 11, 15, new TripChiller("M3", false)));
        Incident("I8", 3, 15, 5, "The roller door stands open until 15:31, hall at 30 °C", null, null);
        if (cell.IndexOfSensor("door/roller") >= 0)
        {
            At(3, 15, 5, new MoveDoor("door/roller", true));
            At(3, 15, 31, new MoveDoor("door/roller", false));
        }

        Incident("I9", 3, 16, 50, "The broker cannot be reached for 22 minutes", null, null);
        At(3, 16, 50, new BrokerOutage(TimeSpan.FromMinutes(22)));
    }

    private void FridayToSunday()
    {
        if (cell.IndexOfSensor("air/n2") >= 0 && cell.IndexOfSensor("m1/coolant") >= 0)
        {
            Incident("I10", 4, 11, 0, "After calibration air/n2 and m1/coolant are put back in each other's place", null, null);
            At(4, 11, 0, new SwapSensors("air/n2", "m1/coolant"));
            At(4, 15, 0, new SwapSensors("air/n2", "m1/coolant"));
        }

        Incident("I11", 4, 13, 55, "A test instance was left on: two workers for 20 minutes; the lease must refuse the second", null, null);
        Incident("I12", 5, 10, 0, "The fan of ahu2 stands for 35 minutes after a dip of the mains", "M4", "VR-780");
        if (Unit("ahu2")) At(5, 10, 0, new SwitchFan("ahu2", false));
        if (Unit("ahu2")) At(5, 10, 35, new SwitchFan("ahu2", true));
        Load(5, 8, 0, "M4", "VR-780", "VR-780-2207", 20.0, said: 0.2);
        foreach (var (hour, minute) in new[] { (9, 30), (10, 40), (12, 30), (13, 30) }) Ask(5, hour, minute, "M4", "groove-depth");
        Take(5, 13, 50, "M4");

        // I13: nobody dries the air over the week-end, and the dielectric stands at 17 °C.
        Incident("I13", 5, 16, 0, "Drying is off over Sunday; the dielectric of M5 stands at 17 °C", "M5", null);
        At(5, 14, 0, new SwitchDrying(false));
        foreach (var zone in cell.Zones) At(5, 14, 30, new MoveSetpoint(zone.Id, 22.6));
        On("M5", () => At(5, 16, 0, new SetTank("M5", 17.0)));
    }

    // The probe of M2 was calibrated wrongly: nothing thermal, and nothing that a signal shows. The inspection finds it.
    private void AfterTheWrongCalibration()
    {
        (int Day, int Hour)[] begins = [(1, 6), (1, 8), (3, 6), (3, 8)];
        foreach (var ((day, hour), serial) in begins.Zip(WeekInspection.Recalibrated))
        {
            Load(day, hour, 20, "M2", "PC-620", serial, 20.0, said: 0.2);
            Flood(day, hour, 25, "M2", 45);
            Ask(day, hour, 40, "M2", "bores");
            Cut(day, hour, 42, "M2", "bores", 25);
            Take(day, hour + 1, 15, "M2");
        }
    }

    // Machines that no incident needs make their parts; two a shift.
    private void OrdinaryJobs()
    {
        var chance = new Chance(2026, "ordinary jobs");
        var serial = 1;
        foreach (var machine in cell.Machines)
        {
            var parts = cell.Parts.Where(p => p.Machines.Contains(machine.Id) && p.Features.All(f => f.FinishDuration < TimeSpan.FromHours(2))).ToArray();
            if (parts.Length == 0) continue;
            for (var slot = 0; slot < 22; slot++)
            {
                var (day, hour) = (slot / 4, 6.5 + (slot % 4 * 4));
                var from = TimeSpan.FromDays(day) + TimeSpan.FromHours(hour);
                var part = parts[(int)(chance.Uniform() * parts.Length)];
                var plan = new JobPlan(machine, part, FormattableString.Invariant($"{part.Number}-{3000 + serial++}"), Finish, from);
                if (Taken(machine.Id, from, from + plan.Longest)) continue;
                story.AddRange(plan.Actions(chance, origin: null));
            }
        }
    }

    private bool Taken(string machine, TimeSpan from, TimeSpan until) =>
        story.Exists(a => a.Action is LoadJob job && job.Machine == machine && job.Serial.Length > 0 && a.At < until
            && story.Exists(u => u.Action is LoadJob { Serial.Length: 0 } off && off.Machine == machine && u.At > a.At && u.At > from - TimeSpan.FromMinutes(5)));

    private void Incident(string code, int day, int hour, int minute, string text, string? machine, string? part)
    {
        if ((machine is null || cell.FindMachine(machine) is not null) && (part is null || cell.FindPart(part) is not null))
            At(day, hour, minute, new Announce(code, text));
    }

    private void Load(int day, int hour, int minute, string machine, string part, string serial, double celsius, double said, string? origin = null)
    {
        if (cell.FindMachine(machine) is null || cell.FindPart(part) is null) return;
        At(day, hour, minute, new LoadJob(machine, serial, part, Finish) { TrueCelsius = celsius, SaidUncertaintyKelvin = said, Origin = origin });
        At(day, hour, minute, new ProbeDatum(machine));
    }

    private void Ask(int day, int hour, int minute, string machine, string feature) =>
        On(machine, () => At(day, hour, minute, new AskPermit(machine, Finish) { Feature = feature }));

    private void Cut(int day, int hour, int minute, string machine, string feature, int minutes)
    {
        On(machine, () => At(day, hour, minute, new MoveCut(machine, true, Finish) { Feature = feature }));
        On(machine, () => story.Add(new TimedAction(On(day, hour, minute) + TimeSpan.FromMinutes(minutes), new MoveCut(machine, false, Finish) { Feature = feature })));
    }

    private void Flood(int day, int hour, int minute, string machine, int minutes)
    {
        On(machine, () => At(day, hour, minute, new SwitchCoolant(machine, true)));
        On(machine, () => story.Add(new TimedAction(On(day, hour, minute) + TimeSpan.FromMinutes(minutes), new SwitchCoolant(machine, false))));
    }

    private void Take(int day, int hour, int minute, string machine) => On(machine, () => At(day, hour, minute, new LoadJob(machine, "", "", "")));

    private void On(string machine, Action tell)
    {
        if (cell.FindMachine(machine) is not null) tell();
    }

    private bool Unit(string id) => cell.Description.AirHandlers.Any(a => a.Id == id);

    private void At(int day, int hour, int minute, CellAction action) => story.Add(new TimedAction(On(day, hour, minute), action));

    private static TimeSpan On(int day, int hour, int minute) => new(day, hour, minute, 0);
}
