namespace ClimateGuard.Thermal;

/// <summary>A cut as one course after the other: pieces in which the film on a wet part thins, and air after that; else one course.</summary>
/// <param name="Cut">The cut.</param>
/// <param name="Noise">Says how long a part stays wet when the cut does not, and how it dries.</param>
/// <param name="BeginMinutes">When it begins, from the time of the question.</param>
/// <param name="Step">Length of a step.</param>
/// <param name="Steps">How many steps.</param>
internal readonly record struct CutLegs(CutAhead Cut, ThermalNoise Noise, double BeginMinutes, TimeSpan Step, int Steps)
{
    /// <summary>What covers the part when the cut begins.</summary>
    public Medium Begins => Around(0).Medium;

    /// <summary>The course that holds one step and goes on from there; a step belongs to the piece that its middle lies in.</summary>
    /// <param name="step">The step it begins with.</param>
    public PathCourse From(int step)
    {
        var around = Around(step);

        // Only a film that thins changes what covers a part on the way.
        var until = around.Medium == Medium.Wet ? step + 1 : Steps;
        while (until < Steps && Around(until) == around)
        {
            until++;
        }

        return new(around, Cut, BeginMinutes + (step * Step.TotalMinutes), Step, Math.Max(0, Math.Min(until, Steps) - step));
    }

    private Surroundings Around(int step) => Cut.Covering(TimeSpan.FromMinutes(BeginMinutes + ((step + 0.5) * Step.TotalMinutes)), Noise);
}
