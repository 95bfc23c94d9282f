namespace ClimateGuard.Thermal;

/// <summary>A cut in one or two courses: as long as the part is wet, and in air after that.</summary>
/// <param name="First">What comes first.</param>
/// <param name="Then">What comes after it, of no steps when nothing does.</param>
internal readonly record struct CutLegs(PathCourse First, PathCourse Then)
{
    /// <summary>Divides a cut; a step belongs to the medium that its middle lies in.</summary>
    /// <param name="cut">The cut.</param>
    /// <param name="noise">Says how long a part stays wet when the cut does not.</param>
    /// <param name="beginMinutes">When it begins, from the time of the question.</param>
    /// <param name="step">Length of a step.</param>
    /// <param name="steps">How many steps.</param>
    public static CutLegs Of(CutAhead cut, ThermalNoise noise, double beginMinutes, TimeSpan step, int steps)
    {
        var whole = new PathCourse(cut.Surroundings, cut.AirCelsius, beginMinutes, step, steps);
        if (cut.Surroundings.Medium != Medium.Wet)
        {
            return new(whole, whole with { Steps = 0 });
        }

        var wet = (int)Math.Clamp(Math.Ceiling(((cut.WetMinutes(noise) - beginMinutes) / step.TotalMinutes) - 0.5), 0, steps);
        var inAir = whole with { Surroundings = cut.Surroundings with { Medium = Medium.Air } };
        return wet == 0
            ? new(inAir, inAir with { Steps = 0 })
            : new(whole with { Steps = wet }, inAir with { BeginMinutes = beginMinutes + (wet * step.TotalMinutes), Steps = steps - wet });
    }

    /// <summary>What covers the part when the cut begins.</summary>
    public Medium Begins => First.Surroundings.Medium;
}
