namespace ClimateGuard.Simulator;

/// <summary>The temperature inside a part from its middle to its surface: finite volumes, conduction, an implicit step.</summary>
/// <remarks>
/// A slab cooled on both faces or a long cylinder, by symmetry from the middle. Backward Euler, so any step is stable;
/// the surface has half a cell of resistance in series with the film.
/// </remarks>
public sealed class ConductionBody
{
    private readonly double[] celsius;
    private readonly double[] volume;
    private readonly double[] conductance;
    private readonly double[] upper;
    private readonly double[] right;
    private readonly double surfaceArea;
    private readonly double surfaceResistance;
    private readonly double heatPerVolume;

    /// <summary>A body at one temperature.</summary>
    /// <param name="cylinder">A long cylinder rather than a slab.</param>
    /// <param name="halfThicknessMetres">Half the thickness or the radius, in m.</param>
    /// <param name="conductivity">k, in W/(m K).</param>
    /// <param name="volumetricHeat">ρ·c, in J/(m³ K).</param>
    /// <param name="startCelsius">Start, in °C.</param>
    /// <param name="cells">Finite volumes, 5 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length or property is not positive, or there are fewer than 5 volumes.</exception>
    public ConductionBody(
        bool cylinder, double halfThicknessMetres, double conductivity, double volumetricHeat, double startCelsius, int cells = 10)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(halfThicknessMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(conductivity);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(volumetricHeat);
        ArgumentOutOfRangeException.ThrowIfLessThan(cells, 5);
        var width = halfThicknessMetres / cells;
        celsius = new double[cells];
        volume = new double[cells];
        conductance = new double[cells];
        upper = new double[cells];
        right = new double[cells];
        Array.Fill(celsius, startCelsius);
        for (var i = 0; i < cells; i++)
        {
            // Per square metre of slab face, or per radian and metre of cylinder: the common factor cancels.
            var outer = cylinder ? (i + 1) * width : 1.0;
            volume[i] = cylinder ? ((2 * i) + 1) * width * width / 2 : width;
            conductance[i] = i < cells - 1 ? conductivity * outer / width : 0;
        }

        surfaceArea = cylinder ? halfThicknessMetres : 1.0;
        surfaceResistance = width / 2 / conductivity;
        heatPerVolume = volumetricHeat;
        VolumeToAreaMetres = cylinder ? halfThicknessMetres / 2 : halfThicknessMetres;
        SurfaceCelsius = startCelsius;
    }

    /// <summary>Volume to cooled surface of the ideal shape, in m.</summary>
    public double VolumeToAreaMetres { get; }

    /// <summary>The middle, in °C.</summary>
    public double MiddleCelsius => celsius[0];

    /// <summary>The surface, in °C.</summary>
    public double SurfaceCelsius { get; private set; }

    /// <summary>The mean over the volume, in °C: what the length follows.</summary>
    public double MeanCelsius
    {
        get
        {
            double sum = 0, whole = 0;
            for (var i = 0; i < celsius.Length; i++)
            {
                sum += volume[i] * celsius[i];
                whole += volume[i];
            }

            return sum / whole;
        }
    }

    /// <summary>Lets a step pass.</summary>
    /// <param name="film">Heat transfer coefficient at the surface, in W/(m² K), 0 or more.</param>
    /// <param name="sinkCelsius">What the surface gives its heat to, in °C.</param>
    /// <param name="seconds">The step, in s.</param>
    public void Advance(double film, double sinkCelsius, double seconds)
    {
        var last = celsius.Length - 1;
        var outside = film <= 0 ? 0 : surfaceArea / ((1.0 / film) + surfaceResistance);
        for (var i = 0; i <= last; i++)
        {
            var storage = heatPerVolume * volume[i] / seconds;
            var inner = i > 0 ? conductance[i - 1] : 0;
            var outer = i < last ? conductance[i] : outside;
            var diagonal = storage + inner + outer;
            var load = (storage * celsius[i]) + (i == last ? outside * sinkCelsius : 0);
            if (i > 0)
            {
                diagonal -= inner * upper[i - 1];
                load += inner * right[i - 1];
            }

            upper[i] = (i < last ? outer : 0) / diagonal;
            right[i] = load / diagonal;
        }

        celsius[last] = right[last];
        for (var i = last - 1; i >= 0; i--) celsius[i] = right[i] + (upper[i] * celsius[i + 1]);
        SurfaceCelsius = film <= 0
            ? celsius[last]
            : celsius[last] - (outside / surfaceArea * (celsius[last] - sinkCelsius) * surfaceResistance);
    }
}
