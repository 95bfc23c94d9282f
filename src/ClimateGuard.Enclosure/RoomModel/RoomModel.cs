namespace ClimateGuard.Enclosure;

/// <summary>A zone as a room of two nodes, air and mass. Immutable.</summary>
/// <remarks>
/// Ca·dTa/dt = ṁcp·(Ts − Ta) + Gam·(Tm − Ta) + (UA + door)·(Th − Ta) + Gx·(Tnext − Ta) + share·load + base; Cm·dTm/dt = Gam·(Ta − Tm).
/// Two time constants are adequate for a building (Madsen and Holst, Energy and Buildings 22 (1995) 67).
/// </remarks>
public sealed record RoomModel
{
    private static readonly int Count = Enum.GetValues<RoomParameter>().Length;
    private readonly double[] values;

    /// <summary>A room of these values.</summary>
    /// <param name="values">One for each <see cref="RoomParameter"/>, in its order and unit; all but the last not negative.</param>
    /// <exception cref="ArgumentException">Another count, or a value out of its range.</exception>
    public RoomModel(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count != Count) throw new ArgumentException($"A room has {Count} values.", nameof(values));
        for (var i = 0; i < Count; i++)
        {
            var least = i <= (int)RoomParameter.AirToMass ? double.Epsilon : i == (int)RoomParameter.Base ? double.MinValue : 0;
            if (!double.IsFinite(values[i]) || values[i] < least) throw new ArgumentException($"{(RoomParameter)i} is not possible: {values[i]}.", nameof(values));
        }

        this.values = [.. values];
    }

    /// <summary>The value of a parameter, in its unit.</summary>
    public double this[RoomParameter parameter] => values[(int)parameter];

    /// <summary>The same room with another value.</summary>
    public RoomModel With(RoomParameter parameter, double value)
    {
        double[] next = [.. values];
        next[(int)parameter] = value;
        return new RoomModel(next);
    }

    /// <summary>What drives the air: heat into it at 0 °C, and what it loses per kelvin other than to the mass.</summary>
    /// <returns>W, and W/K.</returns>
    internal (double Watts, double PerKelvin) Drive(in RoomInputs inputs)
    {
        var flow = values[(int)RoomParameter.FullFlow] * inputs.FlowShare;
        var hall = values[(int)RoomParameter.ToHall] + (values[(int)RoomParameter.Door] * inputs.DoorOpen);
        var next = values[(int)RoomParameter.NextZone];
        var watts = (flow * inputs.SupplyCelsius) + (hall * inputs.HallCelsius) + (next * inputs.NextZoneCelsius)
            + (values[(int)RoomParameter.LoadShare] * inputs.LoadKilowatts * 1000) + values[(int)RoomParameter.Base];
        return (watts, flow + hall + next);
    }

    /// <summary>The air, and in the end the mass, when everything stays: where heat in and heat out balance; °C.</summary>
    /// <returns>NaN when nothing leads heat away.</returns>
    public double SteadyCelsius(in RoomInputs inputs)
    {
        var (watts, perKelvin) = Drive(inputs);
        return perKelvin > 0 ? watts / perKelvin : double.NaN;
    }

    /// <summary>How fast the air settles on its own, and how slowly the whole room.</summary>
    /// <param name="flowShare">Air flow as a share of full flow; 0 with the fans off.</param>
    public (TimeSpan Fast, TimeSpan Slow) TimeConstants(double flowShare)
    {
        var (_, loss) = Drive(new RoomInputs(0, flowShare, 0, 0, 0, 0));
        double air = this[RoomParameter.AirHeat], mass = this[RoomParameter.MassHeat], link = this[RoomParameter.AirToMass];
        var trace = ((loss + link) / air) + (link / mass);
        var product = loss * link / (air * mass);
        var fast = (trace + Math.Sqrt((trace * trace) - (4 * product))) / 2;
        return (TimeSpan.FromSeconds(1 / fast), product > 0 ? TimeSpan.FromSeconds(Math.Min(fast / product, TimeSpan.MaxValue.TotalSeconds / 2)) : TimeSpan.MaxValue);
    }

    /// <summary>Equal when all values are.</summary>
    public bool Equals(RoomModel? other) => other is not null && values.AsSpan().SequenceEqual(other.values);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(values[0], values[1], values[2], values[3], values[4]);
}

/// <summary>What surrounds and drives a zone.</summary>
/// <remarks>Equality by members; no order; the default is all zero: build it with values. Immutable.</remarks>
/// <param name="SupplyCelsius">Supply air, °C.</param>
/// <param name="FlowShare">Air flow as a share of full flow.</param>
/// <param name="HallCelsius">Hall, °C.</param>
/// <param name="NextZoneCelsius">Air of the next zone, °C.</param>
/// <param name="LoadKilowatts">Power of the machines, kW.</param>
/// <param name="DoorOpen">Share of the doors open.</param>
public readonly record struct RoomInputs(
    double SupplyCelsius, double FlowShare, double HallCelsius, double NextZoneCelsius, double LoadKilowatts, double DoorOpen)
{
    internal bool Known => double.IsFinite(SupplyCelsius + FlowShare + HallCelsius + NextZoneCelsius + LoadKilowatts + DoorOpen);

    internal static RoomInputs Middle(in RoomInputs a, in RoomInputs b) => new(
        (a.SupplyCelsius + b.SupplyCelsius) / 2, (a.FlowShare + b.FlowShare) / 2, (a.HallCelsius + b.HallCelsius) / 2,
        (a.NextZoneCelsius + b.NextZoneCelsius) / 2, (a.LoadKilowatts + b.LoadKilowatts) / 2, (a.DoorOpen + b.DoorOpen) / 2);
}
