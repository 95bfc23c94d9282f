namespace ClimateGuard.Thermal;

/// <summary>A stretch of time with the same surroundings but for the air, in even steps.</summary>
/// <param name="Surroundings">What surrounds machine and part.</param>
/// <param name="Cut">The cut in question: the air of each minute from its time on, and how far that may miss.</param>
/// <param name="BeginMinutes">When it begins, from the time of the question.</param>
/// <param name="Step">Length of a step.</param>
/// <param name="Steps">How many steps.</param>
internal readonly record struct PathCourse(
    Surroundings Surroundings, CutAhead Cut, double BeginMinutes, TimeSpan Step, int Steps)
{
    /// <summary>The air expected in the middle of one step.</summary>
    public double AirAt(int step) => Cut.AirCelsius.Count == 0
        ? Surroundings.AirCelsius
        : Cut.AirCelsius[Math.Clamp((int)(BeginMinutes + ((step + 0.5) * Step.TotalMinutes)), 0, Cut.AirCelsius.Count - 1)];
}
