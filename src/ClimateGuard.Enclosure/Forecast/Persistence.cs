namespace ClimateGuard.Enclosure;

/// <summary>The air stays as it is: the rung that every other has to beat.</summary>
internal sealed class Persistence : AirModel
{
    public override AirModelKind Kind => AirModelKind.Persistence;

    public override void Ahead(ZoneCourse course, ComingInputs coming, ReadOnlySpan<int> steps, Span<double> celsius) => celsius.Fill(course.Air[^1]);
}
