using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A stretch of moments with the surroundings of every machine: what each machine can be followed from by itself. Its memory is used again.</summary>
/// <param name="machines">How many machines there are.</param>
internal sealed class FollowedStretch(int machines)
{
    private const int Most = 512;
    private readonly FollowedMoment[] moments = new FollowedMoment[Most];
    private readonly LocalClimate[] climates = new LocalClimate[Most * machines];
    private readonly double[] gradients = new double[Most * machines];

    /// <summary>How many moments there are.</summary>
    public int Count { get; private set; }

    /// <summary>How many moments were before this stretch.</summary>
    public int Before { get; private set; }

    /// <summary>Whether no further moment has room.</summary>
    public bool Full => Count == Most;

    public ref readonly FollowedMoment this[int place] => ref moments[place];

    /// <summary>Begins anew.</summary>
    public void Begin(int before) => (Count, Before) = (0, before);

    /// <summary>Adds a moment.</summary>
    /// <returns>Its place.</returns>
    public int Add(in FollowedMoment moment)
    {
        moments[Count] = moment;
        return Count++;
    }

    /// <summary>Says what surrounds a machine at a moment.</summary>
    public void Say(int place, int machine, in LocalClimate climate, double gradientKelvins)
    {
        climates[(place * machines) + machine] = climate;
        gradients[(place * machines) + machine] = gradientKelvins;
    }

    public ref readonly LocalClimate ClimateOf(int place, int machine) => ref climates[(place * machines) + machine];

    /// <summary>How much warmer the air of its zone is under the roof, in K.</summary>
    public double GradientOf(int place, int machine) => gradients[(place * machines) + machine];
}

/// <summary>A moment at which the machines are followed.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Index of the machine at which something happened or that is looked back on; -1 for none of the cell.</param>
/// <param name="Happened">What happened at it, or null.</param>
/// <param name="LooksBack">Only that machine is followed, and its outlook is made for who looks back on the cut that now begins.</param>
/// <param name="OriginCoolantCelsius">Coolant of the machine that a part comes from, or null.</param>
/// <param name="DoorOpenSince">Since when a door of the cell is open, or null.</param>
internal readonly record struct FollowedMoment(
    DateTimeOffset Time, int Machine, MachineEvent? Happened, bool LooksBack, double? OriginCoolantCelsius, DateTimeOffset? DoorOpenSince);
