using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>Incropera, sections 5.5 and 5.6: the exact series, 168 rows recomputed with 40 digits; tolerance 1e-9.</summary>
public sealed class Incropera_Series
{
    [Fact]
    public void Centre_surface_and_mean_agree_to_nine_digits()
    {
        var rows = 0;
        foreach (var row in PublishedTable.Rows(TransientSeriesRows.Text))
        {
            var geometry = PublishedTable.Geometry(row[0]);
            var (biot, fourier) = (PublishedTable.Number(row[1]), PublishedTable.Number(row[2]));
            var what = $"{row[0]} Bi {row[1]} Fo {row[2]}";
            Within.Absolute(PublishedTable.Number(row[3]), TransientConduction.Centre(geometry, biot, fourier), 1e-9, what + " centre");
            Within.Absolute(PublishedTable.Number(row[4]), TransientConduction.Surface(geometry, biot, fourier), 1e-9, what + " surface");
            Within.Absolute(PublishedTable.Number(row[5]), TransientConduction.Mean(geometry, biot, fourier), 1e-9, what + " mean");
            Within.Absolute(PublishedTable.Number(row[6]), OneTermConduction.Centre(geometry, biot, fourier), 1e-8, what + " centre, one term");
            Within.Absolute(PublishedTable.Number(row[7]), OneTermConduction.Mean(geometry, biot, fourier), 1e-9, what + " mean, one term");
            rows++;
        }

        Assert.Equal(168, rows);
    }

    [Theory]
    [InlineData(ConductionGeometry.PlaneWall)]
    [InlineData(ConductionGeometry.LongCylinder)]
    [InlineData(ConductionGeometry.Sphere)]
    public void The_half_infinite_body_takes_over_without_a_step(ConductionGeometry geometry)
    {
        foreach (var biot in (double[])[0.01, 1, 100, double.PositiveInfinity])
        {
            Within.Absolute(TransientConduction.Mean(geometry, biot, 5.001e-6), TransientConduction.Mean(geometry, biot, 4.999e-6), 5e-5);
            Within.Absolute(TransientConduction.At(geometry, biot, 5.001e-6, 0.998), TransientConduction.At(geometry, biot, 4.999e-6, 0.998), 2e-3);
            Assert.Equal(1, TransientConduction.Mean(geometry, biot, 0));
            Assert.Equal(1, TransientConduction.Centre(geometry, biot, 0));
        }
    }

    [Fact]
    public void A_short_cylinder_is_the_product_of_two_bodies()
    {
        // Incropera, section 5.8; factors of the table above, Bi 1: cylinder at Fo 0.2 and wall at Fo 0.05
        var mean = TransientConduction.ShortCylinderMean(1, 0.2, 1, 0.05);
        var cylinder = PublishedTable.Rows(TransientSeriesRows.Text).Single(row => row is ["cylinder", "1" or "1.0", "0.2", ..]);
        Within.Absolute(0.957309984127 * PublishedTable.Number(cylinder[5]), mean, 1e-9);
        var edge = TransientConduction.ShortCylinderAt(1, 0.2, 1, 1, 0.05, 1);
        Within.Absolute(0.790376763649 * PublishedTable.Number(cylinder[4]), edge, 1e-9);
    }

    [Theory]
    [InlineData(0, 0.2)]
    [InlineData(double.NaN, 0.2)]
    [InlineData(1, -0.1)]
    [InlineData(1, double.NaN)]
    [InlineData(1, double.PositiveInfinity)]
    public void Numbers_without_meaning_are_refused(double biot, double fourier) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TransientConduction.Mean(ConductionGeometry.PlaneWall, biot, fourier));
}
