namespace ClimateGuard.Enclosure;

/// <summary>The exact step of the two nodes while the inputs stay: x(t+s) = x∞ + e^(A·s)·(x(t) − x∞), in closed form for two nodes.</summary>
internal readonly struct RoomTransition
{
    private readonly double air;
    private readonly double airFromMass;
    private readonly double massFromAir;
    private readonly double mass;
    private readonly double perKelvin;

    public RoomTransition(RoomModel room, in RoomInputs inputs, double seconds)
    {
        perKelvin = room.Drive(inputs).PerKelvin;
        double link = room[RoomParameter.AirToMass], ca = room[RoomParameter.AirHeat], cm = room[RoomParameter.MassHeat];
        double a = -(perKelvin + link) / ca, b = link / ca, c = link / cm, d = -link / cm;
        var middle = (a + d) / 2;
        var half = Math.Sqrt(((a - d) * (a - d) / 4) + (b * c));

        // e^(A·s) = e^(m·s)·(cosh(q·s)·I + sinh(q·s)/q·(A − m·I)), written so that nothing overflows.
        double slow = Math.Exp((middle + half) * seconds), fast = Math.Exp((middle - half) * seconds);
        var (even, odd) = ((slow + fast) / 2, (slow - fast) / (2 * half));
        air = even + (odd * (a - middle));
        airFromMass = odd * b;
        massFromAir = odd * c;
        mass = even + (odd * (d - middle));
        FlowShare = inputs.FlowShare;
        DoorOpen = inputs.DoorOpen;
    }

    public double FlowShare { get; }

    public double DoorOpen { get; }

    /// <summary>Whether the step is that of inputs which lead heat away alike.</summary>
    public bool Fits(in RoomInputs inputs) => inputs.FlowShare == FlowShare && inputs.DoorOpen == DoorOpen;

    public (double Air, double Mass) Step(double airCelsius, double massCelsius, double watts)
    {
        if (perKelvin <= 0)
        {
            // Nothing leads heat away: seen from the air itself, which is exact without heat and the limit else.
            return (airCelsius + (airFromMass * (massCelsius - airCelsius)), massCelsius + (massFromAir * (airCelsius - massCelsius)));
        }

        var end = watts / perKelvin;
        double x = airCelsius - end, y = massCelsius - end;
        return (end + (air * x) + (airFromMass * y), end + (massFromAir * x) + (mass * y));
    }

    /// <summary>The covariance after the step, before what the step adds.</summary>
    public (double Air, double Cross, double Mass) Spread(double va, double vc, double vm)
    {
        double p = (air * va) + (airFromMass * vc), q = (air * vc) + (airFromMass * vm);
        double r = (massFromAir * va) + (mass * vc), s = (massFromAir * vc) + (mass * vm);
        return ((p * air) + (q * airFromMass), (p * massFromAir) + (q * mass), (r * massFromAir) + (s * mass));
    }
}
