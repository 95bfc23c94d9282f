using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What every sensor said last, and from it the surroundings of each machine. Owned by the loop.</summary>
public sealed class CellState
{
    // A sensor near the roof says what the roof is like, not the machine (as the reference cell hangs them).
    private const double RoofMetres = 3.0;

    // Fewer than three sensors cannot outvote one; beyond this distance from the middle one is outvoted.
    private const double OutvotedKelvins = 1.0;

    private readonly SensorNow[] sensors;
    private readonly Dictionary<string, MachineInputs> inputs;
    private readonly Dictionary<string, SensorNow[]> airOfZone;
    private long taken;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="trust">Who judges its sensors; null for sensors with which nothing is ever wrong.</param>
    public CellState(Cell cell, SensorTrust? trust = null)
        : this(cell ?? throw new ArgumentNullException(nameof(cell)), trust ?? new SensorTrust(cell), null)
    {
    }

    private CellState(Cell cell, SensorTrust trust, CellState? before)
    {
        sensors = [.. cell.Sensors.Select((sensor, index) => new SensorNow(sensor, index, trust, before?.Of(sensor)))];
        airOfZone = sensors.Where(one => one.Sensor is { Place: SensorPlace.Air, Quantity: SensorQuantity.Temperature, Zone: not null })
            .GroupBy(one => one.Sensor.Zone!, StringComparer.Ordinal).ToDictionary(zone => zone.Key, zone => zone.ToArray(), StringComparer.Ordinal);
        var circles = new List<VotingCircle>();
        inputs = cell.Machines.ToDictionary(machine => machine.Id, machine => new MachineInputs(cell, machine, circles));
    }

    /// <summary>The state of another version of the cell: what a sensor said last stays, by id, as long as it measures the same at the same place.</summary>
    /// <param name="next">The other version.</param>
    /// <param name="trust">Who judges its sensors.</param>
    public CellState For(Cell next, SensorTrust trust) => new(next, trust, this);

    /// <summary>Takes a judged reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <returns>Whether it is the newest of its sensor.</returns>
    public bool Take(in TrustedReading reading)
    {
        taken++;
        return sensors[reading.Raw.Sensor].Take(reading);
    }

    /// <summary>The clock was set: no reading may be from later than now.</summary>
    /// <param name="now">The moment by the clock as it is now.</param>
    public void AfterClockStep(DateTimeOffset now)
    {
        taken++;
        foreach (var sensor in sensors)
        {
            sensor.NotAfter(now);
        }
    }

    /// <summary>The surroundings of a machine at a moment.</summary>
    /// <param name="machineId">Id of a machine of the cell.</param>
    /// <param name="now">The moment.</param>
    public LocalClimate ClimateOf(string machineId, DateTimeOffset now)
    {
        var input = inputs[machineId];
        var air = Asked(input.Air, now).Vote;
        var coolant = Value(input.Coolant, now);
        return new(
            air,
            coolant,
            Value(input.Part, now),
            input.Part < 0 ? 0 : sensors[input.Part].Uncertainty,
            Value(input.Scale, now),
            input.Scale < 0 ? 0 : sensors[input.Scale].Uncertainty,
            Value(input.Storage, now),
            Asked(input.Hall, now).Vote,
            Value(input.Humidity, now))
        {
            OldestInput = OldestInput(input, now),
            AirMissingBecause = double.IsNaN(air) ? WhyNoAir(input, now) : null,
            CoolantMissingBecause = double.IsNaN(coolant) && input.Coolant >= 0 ? sensors[input.Coolant].BecauseAt(now) : null,
        };
    }

    /// <summary>Each sensor at a moment, in the order of the plant file.</summary>
    /// <param name="now">The moment.</param>
    public IReadOnlyList<SensorSnapshot> SensorsAt(DateTimeOffset now) =>
        Array.ConvertAll(sensors, sensor => sensor.SnapshotAt(now));

    /// <summary>How much warmer the air under the roof of a zone is than that at the machines, in K; not a number where one of the two is not known.</summary>
    /// <param name="zone">Id of the zone.</param>
    /// <param name="now">The moment.</param>
    public double VerticalGradient(string zone, DateTimeOffset now) => MeanOf(zone, high: true, now) - MeanOf(zone, high: false, now);

    private double MeanOf(string zone, bool high, DateTimeOffset now)
    {
        var (sum, count) = (0.0, 0);
        foreach (var one in airOfZone.GetValueOrDefault(zone, []))
        {
            if (one.Sensor.HeightMetres >= RoofMetres == high && double.IsFinite(one.LastValue) && one.UsableAt(now))
            {
                sum += one.LastValue;
                count++;
            }
        }

        return count == 0 ? double.NaN : sum / count;
    }

    private SensorNow? Of(Sensor sensor) => Array.Find(sensors, known =>
        (known.Sensor.Id, known.Sensor.Quantity, known.Sensor.Place, known.Sensor.Zone, known.Sensor.Machine, known.Sensor.AirHandler)
        == (sensor.Id, sensor.Quantity, sensor.Place, sensor.Zone, sensor.Machine, sensor.AirHandler));

    private TimeSpan? OldestInput(MachineInputs input, DateTimeOffset now)
    {
        var oldest = Asked(input.Air, now).Oldest;
        return input.Coolant >= 0 ? Older(oldest, input.Coolant, now) : oldest;
    }

    // The machines of a zone ask the same sensors at the same moment: they are asked once.
    private VotingCircle Asked(VotingCircle circle, DateTimeOffset now)
    {
        if (circle.IsAskedAt(now, taken))
        {
            return circle;
        }

        TimeSpan? oldest = null;
        foreach (var index in circle.Sensors)
        {
            oldest = Older(oldest, index, now);
        }

        circle.Take(now, taken, Vote(circle.Sensors, now), oldest);
        return circle;
    }

    private TimeSpan? Older(TimeSpan? oldest, int index, DateTimeOffset now)
    {
        if (!sensors[index].UsableAt(now) || sensors[index].LastTime is not { } last)
        {
            return oldest;
        }

        var age = now - last;
        return oldest is null || age > oldest ? age : oldest;
    }

    private string WhyNoAir(MachineInputs input, DateTimeOffset now) => input.Air.Sensors.Length == 0
        ? $"no air sensor stands for zone {input.Zone}"
        : string.Join("; ", input.Air.Sensors.Take(3).Select(i => sensors[i].BecauseAt(now)).OfType<string>());

    private double Value(int index, DateTimeOffset now) =>
        index >= 0 && sensors[index].UsableAt(now) ? sensors[index].LastValue : double.NaN;

    private double Vote(int[] indices, DateTimeOffset now)
    {
        Span<double> values = stackalloc double[Math.Min(indices.Length, 64)];
        var count = Voters(indices, now, values, onlyTrusted: true);

        // A doubtful sensor is better than none.
        count = count > 0 ? count : Voters(indices, now, values, onlyTrusted: false);
        if (count == 0)
        {
            return double.NaN;
        }

        var usable = values[..count];
        usable.Sort();
        var middle = (usable[(count - 1) / 2] + usable[count / 2]) / 2;
        var sum = 0.0;
        var voters = 0;
        foreach (var value in usable)
        {
            if (count < 3 || Math.Abs(value - middle) <= OutvotedKelvins)
            {
                sum += value;
                voters++;
            }
        }

        return voters == 0 ? middle : sum / voters;
    }

    private int Voters(int[] indices, DateTimeOffset now, Span<double> values, bool onlyTrusted)
    {
        var count = 0;
        foreach (var index in indices)
        {
            if (count < values.Length && sensors[index].UsableAt(now) && (!onlyTrusted || sensors[index].HasVote))
            {
                values[count++] = sensors[index].LastValue;
            }
        }

        return count;
    }

    /// <summary>The sensors that matter to one machine, by index; -1 where there is none.</summary>
    private sealed class MachineInputs
    {
        public MachineInputs(Cell cell, Machine machine, List<VotingCircle> circles)
        {
            Zone = machine.Zone;
            var own = Indices(cell, s => s.Place == SensorPlace.Air && s.Machine == machine.Id);
            Air = VotingCircle.Among(circles, own.Length > 0 ? own : Indices(cell, s => s.Place == SensorPlace.Air && s.Zone == machine.Zone && s.Machine is null && IsLow(s)));
            Hall = VotingCircle.Among(circles, Indices(cell, s => s.Place == SensorPlace.Hall));
            Coolant = machine.CoolantSensor is null ? -1 : cell.IndexOfSensor(machine.CoolantSensor);
            Part = First(cell, s => s.Place == SensorPlace.Part && s.Machine == machine.Id);
            Scale = First(cell, s => s.Place == SensorPlace.Scale && s.Machine == machine.Id);
            Storage = machine.StorageSensor is null ? -1 : cell.IndexOfSensor(machine.StorageSensor);
            Humidity = Array.FindIndex([.. cell.Sensors], s => s.Quantity == SensorQuantity.RelativeHumidity);
        }

        public string Zone { get; }

        public VotingCircle Air { get; }

        public VotingCircle Hall { get; }

        public int Coolant { get; }

        public int Part { get; }

        public int Scale { get; }

        public int Storage { get; }

        public int Humidity { get; }

        private static bool IsLow(Sensor sensor) => sensor.HeightMetres is null or <= RoofMetres;

        private static int First(Cell cell, Func<Sensor, bool> wanted) => Indices(cell, wanted) is [var first, ..] ? first : -1;

        private static int[] Indices(Cell cell, Func<Sensor, bool> wanted) =>
        [
            .. cell.Sensors.Select((sensor, index) => (sensor, index))
                .Where(pair => pair.sensor.Quantity == SensorQuantity.Temperature && wanted(pair.sensor))
                .Select(pair => pair.index),
        ];
    }
}
