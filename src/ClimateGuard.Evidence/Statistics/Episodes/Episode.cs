namespace ClimateGuard.Evidence;

/// <summary>A shift or an excursion with the parts cut in it: the unit that is independent, where single parts are not.</summary>
/// <param name="Exposure">Of the whole episode: 1 and 0 for excursion or not, or a number such as the mean predicted effect in µm.</param>
/// <param name="Outcomes">One value for each part: 1 and 0 for out of tolerance or not, or a deviation; one or more.</param>
/// <param name="Stratum">Machine and weekday, or whatever episodes may only be exchanged within; empty when all are alike.</param>
public sealed record Episode(double Exposure, IReadOnlyList<double> Outcomes, string Stratum = "");
