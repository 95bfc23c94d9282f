using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class ReadingAPlantFileTests
{
    internal static string Repository
    {
        get
        {
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ClimateGuard.sln")))
            {
                folder = folder.Parent;
            }

            return folder?.FullName ?? throw new InvalidOperationException("ClimateGuard.sln is in no folder above the tests");
        }
    }

    [Fact]
    public void The_example_is_a_cell_without_a_problem()
    {
        var result = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text);
        Assert.Equal([], result.Problems);
        Assert.Equal([], result.Notes);
        Assert.Equal("cell9", result.Cell!.Id);
    }

    [Fact]
    public void The_sample_cell_of_the_configuration_is_a_cell_without_a_problem()
    {
        var result = PlantFileReader.Read(Path.Combine(Repository, "config", "plant.yaml"));
        Assert.Equal([], result.Problems);
        Assert.Equal([], result.Notes);
        Assert.Equal("cell4", result.Cell!.Id);
    }

    [Fact]
    public void Nothing_of_the_example_is_lost_on_the_way_into_the_cell()
    {
        var cell = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!;
        var described = cell.Description;
        Assert.Equal(("Example cell", "Europe/Vienna", 20.0), (described.Name, described.TimeZone, described.Reference.Value));
        var zone = Assert.Single(cell.Zones);
        Assert.Equal(("main", 20.0, 1.0), (zone.Id, zone.Setpoint.Value, zone.Band.Value));
        Assert.Equal(["ahu1"], zone.AirHandlers);
        var handler = Assert.Single(described.AirHandlers);
        Assert.Equal((CoolingMedium.ChilledWater, false), (handler.Medium, handler.OutdoorAir));
        Assert.Equal(("ahu1/supply", "ahu1/return"), (handler.Points["supply"], handler.Points["return"]));

        var sensor = cell.Sensors[0];
        Assert.Equal((SensorQuantity.Temperature, SensorPlace.Air, "main", 1.5), (sensor.Quantity, sensor.Place, sensor.Zone, sensor.HeightMetres));
        Assert.Equal(("C", 10.0, 0.05, 60.0), (sensor.Unit, sensor.Period.TotalSeconds, sensor.Uncertainty, sensor.TimeConstant.TotalSeconds));
        Assert.Equal((5.0, 45.0), (sensor.PlausibleLow, sensor.PlausibleHigh));
        Assert.Equal(new Calibration(new DateTimeOffset(2026, 1, 10, 8, 0, 0, TimeSpan.Zero), 0.03, 0.03, "SN 4411"), Assert.Single(sensor.Calibrations));
        Assert.Equal(("ahu1", "M1"), (cell.Sensors[2].AirHandler, cell.Sensors[4].Machine));
    }

    [Fact]
    public void A_machine_comes_with_its_modes_in_the_units_of_its_keys()
    {
        var machine = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!.FindMachine("M1")!;
        Assert.Equal(("5-axis horizontal", "main", 6.0, "m1/coolant"), (machine.Kind, machine.Zone, machine.AccuracyMicrometres, machine.CoolantSensor));
        Assert.Equal([800, 800, 800], machine.EnvelopeMillimetres);
        Assert.Equal((10.5, 0.5, 40.0), (machine.Scale.AlphaMicrometresPerMetreKelvin, machine.Scale.UAlphaMicrometresPerMetreKelvin, machine.Scale.TimeConstant.TotalMinutes));
        Assert.Equal([new DriftMode(Axis.Z, -2.0, TimeSpan.FromHours(0.8)), new DriftMode(Axis.Z, 7.0, TimeSpan.FromHours(6))], machine.Drift);
        Assert.Equal([new SpindleMode(Axis.Z, 18, TimeSpan.FromMinutes(25))], machine.Spindle);
    }

    [Fact]
    public void A_part_comes_with_its_material_and_its_features()
    {
        var part = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!.FindPart("CP-100")!;
        Assert.Equal((10.9, "our certificate"), (part.Material.AlphaMicrometresPerMetreKelvin, part.Material.Source));
        Assert.Equal((60.0, 20.0, 22.0), (part.MassKilograms, part.VolumeToAreaMillimetres, part.HalfThicknessMillimetres));
        Assert.Equal((PartShape.Slab, PartClass.Critical), (part.Shape, part.Class));
        Assert.Equal(["M1"], part.Machines);
        var holes = Assert.IsType<PositionFeature>(part.Features[0]);
        Assert.Equal(BudgetRule.Absolute(18), holes.Budget);
        Assert.Equal(12, holes.Points.Count);
        Assert.Equal(new BoltCircle(300, 12, 0), holes.Circle);
        Assert.Equal(0, holes.Points[3].X, 1e-9);
        Assert.Equal(300, holes.Points[3].Y, 1e-9);
        Assert.Equal(TimeSpan.FromMinutes(25), holes.FinishDuration);
        Assert.Equal((240.0, 0.3), (Assert.IsType<SizeFeature>(part.Features[1]).NominalMillimetres, part.Features[1].Budget.Share));
        Assert.Equal(Axis.Z, Assert.IsType<DepthFeature>(part.Features[2]).Axis);
        Assert.Equal(Axis.X, Assert.IsType<DistanceFeature>(part.Features[3]).Axis);
    }

    [Fact]
    public void The_policies_come_with_their_shift_and_rates()
    {
        var policies = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!.Description.Policies;
        Assert.Equal(1.645, policies.GuardFactor);
        Assert.Equal(new ProbabilityLimits { Watch = 0.02, Measure = 0.10, Hold = 0.30, ReleaseHold = 0.10, ReleaseMeasure = 0.04 }, policies.Probability);
        var shift = Assert.Single(policies.Shifts);
        Assert.Equal(("early", new TimeOnly(6, 0), new TimeOnly(14, 0)), (shift.Name, shift.From, shift.To));
        Assert.Equal([DayOfWeek.Monday, DayOfWeek.Tuesday, DayOfWeek.Wednesday, DayOfWeek.Thursday, DayOfWeek.Friday], shift.Days);
        Assert.Equal(new Rates(225, 9000, "EUR"), policies.Rates);
    }

    [Fact]
    public void Set_backs_are_read_as_times_of_the_week() => Assert.Equal(
        [
            new SetBack(new WeekTime(DayOfWeek.Saturday, new TimeOnly(14, 30)), new WeekTime(DayOfWeek.Monday, new TimeOnly(5, 0)), new Celsius(22.6)),
            new SetBack(new WeekTime(DayOfWeek.Wednesday, new TimeOnly(22, 0)), new WeekTime(DayOfWeek.Thursday, new TimeOnly(4, 30)), new Celsius(21.5)),
        ],
        PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!.Zones[0].SetBacks);

    [Fact]
    public void A_key_left_out_is_named_with_the_value_that_stands_in()
    {
        var defaults = PlantFileReader.Parse("plant.yaml", ExamplePlant.Text).Cell!.Description.Defaults;
        Assert.Contains(new DefaultUsed("/sensors/1/uncertaintyK", "0.1"), defaults);
        Assert.Contains(new DefaultUsed("/sensors/1/plausible", "[5, 45]"), defaults);
        Assert.Contains(new DefaultUsed("/sensors/5/unit", "open"), defaults);
        Assert.Contains(new DefaultUsed("/machines/0/drift/1/relativeUncertainty", "0.3"), defaults);
        Assert.Contains(new DefaultUsed("/machines/0/drift/1/provenance", "default"), defaults);
        Assert.Contains(new DefaultUsed("/parts/0/heatTransfer/flood", "400"), defaults);
        Assert.Contains(new DefaultUsed("/parts/0/features/2/finishMinutes", "15"), defaults);
        Assert.Contains(new DefaultUsed("/parts/0/features/3/axis", "x"), defaults);
        Assert.DoesNotContain(defaults, d => d.Path.StartsWith("/sensors/0/", StringComparison.Ordinal) && d.Path.EndsWith('K'));
    }

    [Fact]
    public void A_feature_without_a_budget_takes_the_share_of_its_parts_class_and_says_so()
    {
        foreach (var (partClass, share, micrometres) in new[] { ("critical", "0.2", 2.4), ("standard", "0.3", 3.6), ("reworkable", "0.4", 4.8) })
        {
            var text = ExamplePlant.With("toleranceMm: 0.012, budgetShare: 0.30 }", "toleranceMm: 0.012 }")
                .Replace("class: critical", $"class: {partClass}", StringComparison.Ordinal);
            var cell = PlantFileReader.Parse("plant.yaml", text).Cell!;
            Assert.Equal(micrometres, cell.Parts[0].Features[3].Budget.MicrometresFor(0.012), 1e-9);
            Assert.Contains(new DefaultUsed("/parts/0/features/3/budgetShare", share), cell.Description.Defaults);
        }
    }

    [Fact]
    public void The_added_keys_arrive_too()
    {
        var text = ExamplePlant.Text
            .Replace("{ id: air/a2, quantity: temperature, place: air, zone: main }", "{ id: air/a2, topic: hall/air2, reportsOnChange: true, resolution: 0.5 }", StringComparison.Ordinal)
            .Replace("    kind: 5-axis horizontal\n", "    name: big one\n    coolantMedium: mist\n    indexAxis: a\n    storage: air/a1\n    ratePerHour: 300\n", StringComparison.Ordinal)
            .Replace("timeConstantH: 6.0 }", "timeConstantH: 6.0, relativeUncertainty: 0.1, provenance: fitted }", StringComparison.Ordinal)
            .Replace("    massKg: 60\n", "    heatTransfer: { air: 12, fan: 30, mist: 50, flood: 600, submerged: 200 }\n", StringComparison.Ordinal)
            .Replace("id: special-iron, alpha", "id: special-iron, name: our iron, provenance: measured, alpha", StringComparison.Ordinal);
        var result = PlantFileReader.Parse("plant.yaml", text);
        Assert.Equal([], result.Problems);
        var cell = result.Cell!;
        Assert.Equal(("hall/air2", true, 0.5), (cell.Sensors[1].Topic, cell.Sensors[1].ReportsOnChange, cell.Sensors[1].Resolution));
        var machine = cell.Machines[0];
        Assert.Equal(("big one", CoolantMedium.Mist, RotaryAxis.A, "air/a1", 300.0), (machine.Name, machine.CoolantMedium, machine.IndexAxis, machine.StorageSensor, machine.RatePerHour));
        Assert.Equal((0.1, Provenance.Fitted), (machine.Drift[1].RelativeUncertainty, machine.Drift[1].Provenance));
        var part = cell.Parts[0];
        Assert.Equal(new HeatTransfer { Air = 12, Fan = 30, Mist = 50, Flood = 600, Submerged = 200 }, part.HeatTransfer);
        Assert.Equal(("our iron", Provenance.Measured), (part.Material.Name, part.Material.Provenance));
        Assert.Null(part.MassKilograms);
    }

    [Fact]
    public void What_acts_on_a_feature_besides_mismatch_and_drift_arrives_too()
    {
        var text = ExamplePlant.With("compensated: false }", "compensated: false, screw: { fixedBearingMm: -400, axis: y, riseK: 8 } }")
            .Replace("    massKg: 60\n", "    heatTransfer: { pallet: 60 }\n", StringComparison.Ordinal)
            .Replace(
                "toleranceMm: 0.012, budgetShare: 0.30 }",
                "toleranceMm: 0.012, fixturePin: { distanceMm: 250, alpha: 23.5 }, bending: { body: plate, lengthMm: 600, thicknessMm: 40, acrossK: 0.3 }, "
                    + "bolted: { lengthMm: 600, partThicknessMm: 30, subplateThicknessMm: 40, boltedAtC: 21 } }",
                StringComparison.Ordinal);
        var result = PlantFileReader.Parse("plant.yaml", text);
        Assert.Equal([], result.Problems);
        Assert.Equal([], result.Notes);
        var cell = result.Cell!;
        Assert.Equal(new Screw { FixedBearingMillimetres = -400, Axis = Axis.Y, RiseKelvins = 8 }, cell.Machines[0].Scale.Screw);
        Assert.Equal(60, cell.Parts[0].HeatTransfer.Pallet);
        var feature = cell.Parts[0].Features[3];
        Assert.Equal(new FixturePin { DistanceMillimetres = 250, AlphaMicrometresPerMetreKelvin = 23.5 }, feature.FixturePin);
        Assert.Equal(new GradientBend { Body = BendingBody.Plate, LengthMillimetres = 600, ThicknessMillimetres = 40, AcrossKelvins = 0.3 }, feature.Bending);
        Assert.Equal(
            new BoltedPlate { LengthMillimetres = 600, PartThicknessMillimetres = 30, SubplateThicknessMillimetres = 40, BoltedAtCelsius = 21 }, feature.Bolted);
    }

    [Fact]
    public void A_pin_of_a_bore_says_nothing_and_a_coefficient_in_one_per_kelvin_is_refused()
    {
        var bore = PlantFileReader.Parse("p", ExamplePlant.With("id: bore, kind: size,", "id: bore, kind: size, fixturePin: { distanceMm: 250 },"));
        Assert.Equal("/parts/0/features/1/fixturePin", Assert.Single(bore.Notes).Path);
        var wrong = PlantFileReader.Parse("p", ExamplePlant.With("kind: distance,", "kind: distance, fixturePin: { distanceMm: 250, alpha: 2.35e-5 },"));
        Assert.Null(wrong.Cell);
        Assert.Contains(wrong.Problems, problem => problem.ToString()!.Contains("1/K", StringComparison.Ordinal));
    }

    [Fact]
    public void The_least_plant_file_is_a_version_a_cell_a_zone_and_a_sensor()
    {
        var result = PlantFileReader.Parse("p", "version: 1\ncell: c\nzones: [{ id: z }]\nsensors: [{ id: s }]\n");
        Assert.Equal([], result.Problems);
        Assert.Equal((SensorQuantity.Temperature, SensorPlace.Air), (result.Cell!.Sensors[0].Quantity, result.Cell.Sensors[0].Place));
        Assert.Contains(new DefaultUsed("/sensors/0/quantity", "temperature"), result.Cell.Description.Defaults);
        Assert.Contains(new DefaultUsed("/machines", "[]"), result.Cell.Description.Defaults);
    }

    [Fact]
    public void A_stated_key_that_says_nothing_for_its_kind_is_a_note_and_no_refusal()
    {
        var result = PlantFileReader.Parse("p", ExamplePlant.With("datum: axis ", "nominalMm: 600\n        datum: axis "));
        Assert.NotNull(result.Cell);
        var note = Assert.Single(result.Notes);
        Assert.Equal("/parts/0/features/0/nominalMm", note.Path);
        Assert.Equal("nominalMm says nothing for a feature of kind position and is not used", note.Message);
    }

    [Fact]
    public void The_version_of_a_configuration_follows_its_bytes()
    {
        var one = PlantFileReader.Parse("p", ExamplePlant.Text).ConfigVersion;
        Assert.Equal(12, one.Length);
        Assert.Equal(one, PlantFileReader.Parse("another name", ExamplePlant.Text).ConfigVersion);
        Assert.NotEqual(one, PlantFileReader.Parse("p", ExamplePlant.Text + "\n").ConfigVersion);
        Assert.Equal("ba7816bf8f01", PlantFileReader.Parse("p", "abc").ConfigVersion); // SHA-256 of "abc", FIPS 180-4 example
    }
}
