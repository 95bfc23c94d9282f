namespace ClimateGuard.Enclosure;

/// <summary>Follows air and mass of a room through measured air: a Kalman filter of two nodes, in units of the measurement's variance.</summary>
/// <remarks>A mean over a step stands for its middle, so the inputs between two middles are the mean of both steps.</remarks>
internal struct RoomFilter(RoomModel room, double airNoise, TimeSpan step)
{
    // A mass never seen may be anything a room can be.
    private const double UnknownMass = 1e5;
    private const double MassNoiseShare = 0.01;
    private RoomTransition transition;
    private bool hasTransition;
    private RoomInputs before;
    private double va;
    private double vc;
    private double vm;

    /// <summary>Air, °C.</summary>
    public double Air { get; private set; }

    /// <summary>Mass, °C.</summary>
    public double Mass { get; private set; }

    /// <summary>Whether it has begun.</summary>
    public bool Runs { get; private set; }

    /// <summary>Takes a step.</summary>
    /// <param name="air">Measured, °C; NaN ends the run.</param>
    /// <param name="inputs">Inputs of the step.</param>
    /// <param name="innovation">How far the air lay from what was foretold, K; NaN at the begin of a run.</param>
    /// <param name="variance">Its variance in units of the measurement's.</param>
    public void Step(double air, in RoomInputs inputs, out double innovation, out double variance)
    {
        (innovation, variance) = (double.NaN, 1);
        if (double.IsNaN(air) || !inputs.Known)
        {
            Runs = false;
            return;
        }

        if (!Runs)
        {
            Mass = Begin(air, inputs);
            (Air, va, vc, vm, Runs) = (air, 1, 0, UnknownMass, true);
            before = inputs;
            return;
        }

        Predict(RoomInputs.Middle(before, inputs));
        before = inputs;
        innovation = air - Air;
        variance = va + 1;
        double ga = va / variance, gm = vc / variance;
        Air += ga * innovation;
        Mass += gm * innovation;
        vm -= gm * vc;
        vc *= 1 - ga;
        va *= 1 - ga;
    }

    private void Predict(in RoomInputs inputs)
    {
        if (!hasTransition || !transition.Fits(inputs)) (transition, hasTransition) = (new RoomTransition(room, inputs, step.TotalSeconds), true);
        (Air, Mass) = transition.Step(Air, Mass, room.Drive(inputs).Watts);
        (va, vc, vm) = transition.Spread(va, vc, vm);
        va += airNoise;
        vm += airNoise * MassNoiseShare;
    }

    // The mass at which the air would stand still: a better begin than the air itself.
    private readonly double Begin(double air, in RoomInputs inputs)
    {
        var (watts, perKelvin) = room.Drive(inputs);
        return Math.Clamp(air - ((watts - (perKelvin * air)) / room[RoomParameter.AirToMass]), air - 5, air + 5);
    }
}
