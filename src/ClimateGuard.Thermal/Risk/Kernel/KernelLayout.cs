using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Which numbers of the state the features of a part depend on, and where the paths keep them.</summary>
/// <remarks>A number nobody reads, such as the fixture or a mode along an axis no feature uses, has no slot. Immutable.</remarks>
internal sealed class KernelLayout
{
    private static readonly Medium[] Media = [.. Enum.GetValues<Medium>().Where(medium => medium != Medium.Still)];

    private readonly int[] slots;
    private readonly bool[] moving;

    public KernelLayout(ThermalModel model)
    {
        var count = model.Layout.Count;
        UsedAxes = [.. Enumerable.Range(0, 3).Select(axis => model.Effects.Any(effect => Uses(effect.Geometry, (Axis)axis)))];
        var partWeights = Enum.GetValues<Medium>().ToDictionary(medium => medium, medium => Weights(count, medium, state => model.PartTemperature(state).Value));
        var drift = Enumerable.Range(0, 3).Select(axis => Weights(count, Medium.Air, state => model.DriftMicrometres(state, (Axis)axis))).ToArray();
        var probes = Media.Select(medium => new StepProbe(model, medium, 60)).ToArray();
        var noise = probes.Select(probe => probe.AddedCovariance()).ToArray();
        var live = new bool[count];
        live[StateLayout.Scale] = live[StateLayout.PartFirst] = live[StateLayout.PartSecond] = live[StateLayout.LogTimeConstant] = true;
        live[StateLayout.Fixture] = model.Effects.Any(effect => effect.Terms.Any(term => term.FixtureGain != 0));
        for (var axis = 0; axis < 3; axis++)
        {
            for (var number = 0; UsedAxes[axis] && number < count; number++)
            {
                live[number] |= drift[axis][number] != 0;
            }
        }

        for (var number = 0; number < count; number++)
        {
            live[number] |= partWeights.Values.Any(weights => weights[number] != 0);
        }

        Close(live, [.. probes.Select(probe => probe.Dependence())]);
        Live = [.. Enumerable.Range(0, count).Where(number => live[number])];
        slots = new int[count];
        Array.Fill(slots, -1);
        for (var slot = 0; slot < Live.Length; slot++)
        {
            slots[Live[slot]] = slot;
        }

        moving = [.. Enumerable.Range(0, count).Select(number =>
            probes.Any(probe => !probe.Stays(number)) || noise.Any(added => added[(number * count) + number] > 0))];
        DriftWeights = [.. drift.Select(weights => Slotted(weights))];
        PartSlots = partWeights.ToDictionary(pair => pair.Key, pair => Slotted(pair.Value));
    }

    /// <summary>The numbers that have a slot, in the order of the slots.</summary>
    public int[] Live { get; }

    /// <summary>How many slots.</summary>
    public int Slots => Live.Length;

    /// <summary>The numbers with a slot that a step changes.</summary>
    public IEnumerable<int> Moving => Live.Where(IsMoving);

    /// <summary>The numbers with a slot that stay during a cut.</summary>
    public IEnumerable<int> Fixed => Live.Where(number => !IsMoving(number));

    /// <summary>Whether any feature feels drift along X, Y, Z.</summary>
    public bool[] UsedAxes { get; }

    /// <summary>What sums to the drift along each axis.</summary>
    public Multiplier[][] DriftWeights { get; }

    /// <summary>What sums to the mean temperature of the part in each medium.</summary>
    public Dictionary<Medium, Multiplier[]> PartSlots { get; }

    /// <summary>Whether a step can change this number.</summary>
    public bool IsMoving(int number) => moving[number];

    /// <summary>The slot of a number, or −1.</summary>
    public int SlotOf(int number) => slots[number];

    private Multiplier[] Slotted(double[] weights) =>
        [.. Enumerable.Range(0, weights.Length).Where(i => weights[i] != 0 && slots[i] >= 0).Select(i => new Multiplier(slots[i], weights[i]))];

    private static void Close(bool[] live, bool[][,] reads)
    {
        for (var grew = true; grew;)
        {
            grew = false;
            for (var of = 0; of < live.Length; of++)
            {
                for (var by = 0; live[of] && by < live.Length; by++)
                {
                    if (!live[by] && Array.Exists(reads, table => table[of, by]))
                    {
                        live[by] = grew = true;
                    }
                }
            }
        }
    }

    private static double[] Weights(int count, Medium medium, Func<ThermalState, double> read)
    {
        var zero = read(new ThermalState(count) { PartMedium = medium });
        var weights = new double[count];
        for (var i = 0; i < count; i++)
        {
            var unit = new ThermalState(count) { PartMedium = medium };
            unit.Mean[i] = 1;
            weights[i] = read(unit) - zero;
        }

        return weights;
    }

    private static bool Uses(FeatureGeometry geometry, Axis axis) => geometry switch
    {
        FeatureGeometry.Along along => axis switch
        {
            Axis.X => along.Effect.X != 0,
            Axis.Y => along.Effect.Y != 0,
            _ => along.Effect.Z != 0,
        },
        FeatureGeometry.HalfTurn turn => axis != Axis.Z && (turn.IndexAxis == RotaryAxis.C || (axis == Axis.Y) == (turn.IndexAxis == RotaryAxis.A)),
        FeatureGeometry.Indexed or FeatureGeometry.Pattern => axis != Axis.Z,
        _ => true,
    };
}
