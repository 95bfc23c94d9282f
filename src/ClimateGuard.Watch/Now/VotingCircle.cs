namespace ClimateGuard.Watch;

/// <summary>Sensors that vote together on one temperature, with what they said when they were asked last. Owned by the state of the cell.</summary>
internal sealed class VotingCircle
{
    private DateTimeOffset at;
    private long after = -1;

    private VotingCircle(int[] sensors) => Sensors = sensors;

    /// <summary>Their indices in the cell.</summary>
    public int[] Sensors { get; }

    /// <summary>The temperature, in °C; not a number where none of them can be used.</summary>
    public double Vote { get; private set; } = double.NaN;

    /// <summary>How old the oldest of those in use is, or null.</summary>
    public TimeSpan? Oldest { get; private set; }

    /// <summary>The circle of these sensors; machines that ask the same ones share it.</summary>
    public static VotingCircle Among(List<VotingCircle> circles, int[] sensors)
    {
        var circle = circles.Find(known => known.Sensors.AsSpan().SequenceEqual(sensors));
        if (circle is null)
        {
            circles.Add(circle = new VotingCircle(sensors));
        }

        return circle;
    }

    /// <summary>Whether it was asked at this moment, after as many readings.</summary>
    public bool IsAskedAt(DateTimeOffset moment, long readings) => after == readings && at == moment;

    /// <summary>Takes what they say.</summary>
    public void Take(DateTimeOffset moment, long readings, double vote, TimeSpan? oldest) => (at, after, Vote, Oldest) = (moment, readings, vote, oldest);
}
