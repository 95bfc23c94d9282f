using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>Incropera, Fundamentals of Heat and Mass Transfer, table 5.1: roots and coefficients of the first term, and the next five.</summary>
public sealed class Incropera_OneTerm
{
    [Theory]
    [InlineData("wall", 0.1, 0.3111, 1.0161)] // table 5.1 as printed, 4 decimals: tolerance 5e-5
    [InlineData("cylinder", 0.1, 0.4417, 1.0246)]
    [InlineData("sphere", 0.1, 0.5423, 1.0298)]
    [InlineData("wall", 1, 0.8603, 1.1191)]
    [InlineData("cylinder", 1, 1.2558, 1.2071)]
    [InlineData("sphere", 1, 1.5708, 1.2732)]
    [InlineData("wall", 10, 1.4289, 1.2620)]
    [InlineData("cylinder", 10, 2.1795, 1.5677)]
    [InlineData("sphere", 10, 2.8363, 1.9249)]
    public void The_printed_table_is_met(string geometry, double biot, double zeta, double coefficient)
    {
        var mode = ConductionEigenvalues.Leading(PublishedTable.Geometry(geometry), biot);
        Within.Absolute(zeta, mode.Eigenvalue, 5e-5);
        Within.Absolute(coefficient, mode.Coefficient, 5e-5);
    }

    [Fact]
    public void Twenty_six_biot_numbers_and_infinity_agree_to_ten_digits()
    {
        var rows = 0;
        foreach (var row in PublishedTable.Rows(TransientEigenvalueRows.OneTerm))
        {
            var mode = ConductionEigenvalues.Leading(PublishedTable.Geometry(row[0]), PublishedTable.Number(row[1]));
            Within.Absolute(PublishedTable.Number(row[2]), mode.Eigenvalue, 1e-10, $"{row[0]} Bi {row[1]} zeta");
            Within.Absolute(PublishedTable.Number(row[3]), mode.Coefficient, 1e-10, $"{row[0]} Bi {row[1]} C");
            rows++;
        }

        Assert.Equal(81, rows);
    }

    [Fact]
    public void The_first_six_roots_and_coefficients_agree_to_ten_digits()
    {
        var rows = 0;
        foreach (var row in PublishedTable.Rows(TransientEigenvalueRows.FirstSix))
        {
            var n = (int)PublishedTable.Number(row[2]);
            var mode = ConductionEigenvalues.First(PublishedTable.Geometry(row[0]), PublishedTable.Number(row[1]), 6)[n - 1];
            Within.Absolute(PublishedTable.Number(row[3]), mode.Eigenvalue, 1e-10, $"{row[0]} Bi {row[1]} zeta {n}");
            Within.Absolute(PublishedTable.Number(row[4]), mode.Coefficient, 1e-10, $"{row[0]} Bi {row[1]} C {n}");
            rows++;
        }

        Assert.Equal(54, rows);
    }

    [Fact]
    public void Very_small_and_very_large_biot_numbers_meet_their_limits()
    {
        // Bi → 0: ζ² → Bi, 2·Bi, 3·Bi (energy balance of a lumped body); Bi → ∞: π/2, 2.404825557696, π (table 5.1)
        foreach (var (geometry, share) in new[] { ("wall", 1), ("cylinder", 2), ("sphere", 3) })
        {
            var mode = ConductionEigenvalues.Leading(PublishedTable.Geometry(geometry), 1e-6);
            Within.Relative(share * 1e-6, mode.Eigenvalue * mode.Eigenvalue, 1e-6, geometry);
            Within.Absolute(1, mode.MeanWeight, 1e-9, geometry);
        }

        Within.Absolute(1.570796326795, ConductionEigenvalues.Leading(ConductionGeometry.PlaneWall, 1e12).Eigenvalue, 1e-10);
        Within.Absolute(2.404825557696, ConductionEigenvalues.Leading(ConductionGeometry.LongCylinder, 1e12).Eigenvalue, 1e-10);
        Within.Absolute(3.141592653590, ConductionEigenvalues.Leading(ConductionGeometry.Sphere, 1e12).Eigenvalue, 1e-10);
    }
}
