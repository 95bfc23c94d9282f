using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Files.Inspection;

/// <summary>Elements and chain: QIF 3.0 schemas Characteristics.xsd, QIFResults.xsd, QIFDocument.xsd (ISO 23952).</summary>
public sealed class QifReaderTests
{
    private static readonly Cell Small = SmallCell.Of(features:
    [
        new SizeFeature { Id = "bore", ToleranceMillimetres = 0.02, Budget = new BudgetRule(null, 0.3), NominalMillimetres = 10 },
        new PositionFeature
        {
            Id = "holes", ToleranceMillimetres = 0.06, Budget = new BudgetRule(18, null),
            Circle = new BoltCircle(450, 4, 0), Points = new BoltCircle(450, 4, 0).Points(),
        },
    ]);

    [Fact]
    public void A_diameter_is_its_value_less_the_target_and_says_device_mode_and_uncertainty()
    {
        var value = Assert.Single(Good(new QifText()).Values);

        Assert.Equal(("S1", "D-1", "bore", "CMM-1"), (value.Serial, value.Part, value.Feature.Id, value.Device));
        Assert.Equal(2.0, value.DeviationMicrometres, 1e-9);
        Assert.Equal(1.5, value.UMicrometres!.Value, 1e-9);
        Assert.Equal(DeviceCompensation.DeviceOnly, value.Compensation);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 13, 0, 0, TimeSpan.Zero), value.MeasuredAt);
    }

    [Fact]
    public void A_hole_has_its_vector_and_its_number_from_the_features_and_its_value_is_diametral()
    {
        var value = Assert.Single(Good(new QifText { Measurements = QifText.Hole("<Value>0.010</Value><Bonus>0</Bonus>") }).Values);

        Assert.Equal(2, value.Hole);
        Assert.Equal((3.0, 4.0, 10.0), (Math.Round(value.DxMicrometres!.Value, 6), Math.Round(value.DyMicrometres!.Value, 6), value.DeviationMicrometres));
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 12, 30, 0, TimeSpan.Zero), value.MeasuredAt);
    }

    [Fact]
    public void Without_a_value_a_position_is_twice_its_vector_and_a_diameter_is_not_measured_which_is_not_zero()
    {
        var read = Good(new QifText { Measurements = QifText.Hole("") + QifText.Bore("") });

        Assert.Equal(10.0, Assert.Single(read.Values).DeviationMicrometres, 1e-6);
        Assert.Equal(1, read.NotMeasured);
    }

    [Fact]
    public void A_unit_of_the_file_is_taken_and_a_value_may_name_another()
    {
        const string both = "<LinearUnit><SIUnitName>meter</SIUnitName><UnitName>inch</UnitName><UnitConversion><Factor>0.0254</Factor></UnitConversion></LinearUnit>";
        var inch = new QifText().Unit + both;
        var value = Assert.Single(Good(new QifText { Unit = inch, Measurements = QifText.Bore("0.39378", "linearUnit=\"inch\"") }).Values);

        // 0.39378 in = 10.002 012 mm.
        Assert.Equal(2.012, value.DeviationMicrometres, 1e-6);
    }

    [Fact]
    public void The_name_of_the_si_unit_may_be_left_out_where_the_conversion_is_given()
    {
        var value = Assert.Single(Good(new QifText { Unit = "<LinearUnit><UnitName>mm</UnitName><UnitConversion><Factor>0.001</Factor></UnitConversion></LinearUnit>" }).Values);

        Assert.Equal(2.0, value.DeviationMicrometres, 1e-9);
    }

    [Fact]
    public void What_the_plant_file_does_not_know_is_listed_and_left_out()
    {
        const string flat = "<FlatnessCharacteristicMeasurement id=\"42\"><Status><CharacteristicStatusEnum>PASS</CharacteristicStatusEnum></Status><CharacteristicItemId>32</CharacteristicItemId><Value>0.01</Value></FlatnessCharacteristicMeasurement>";
        var read = Good(new QifText { Measurements = QifText.Bore("10") + flat });

        Assert.Single(read.Values);
        Assert.Contains("characteristic 113", read.Notes[0], StringComparison.Ordinal);
        Assert.StartsWith("no ObjectTemperature of the part stands in the file: say partC and deviceC", Assert.Single(read.Notes.Skip(1)), StringComparison.Ordinal);
    }

    public static TheoryData<string, Func<QifText, QifText>, string> Broken => new()
    {
        { "no unit", text => text with { Unit = "" }, "LinearUnit is missing; a unit is never assumed" },
        { "a strange unit", text => text with { Unit = "<LinearUnit><SIUnitName>furlong</SIUnitName></LinearUnit>" }, "the unit of length \"furlong\" is not known" },
        { "a unit that was not declared", text => text with { Measurements = QifText.Bore("10", "linearUnit=\"inch\"") }, "linearUnit \"inch\" is not known" },
        { "no serial", text => text with { Serial = "" }, "a serial is never guessed" },
        { "a decimal comma", text => text with { Measurements = QifText.Bore("10,002") }, "Value is \"10,002\"; a decimal number is allowed" },
        { "not a number", text => text with { Measurements = QifText.Bore("NaN") }, "Value is \"NaN\"" },
        { "a spherical zone", text => text with { Zone = "<SphericalZone/>", Measurements = QifText.Hole("<Value>0.01</Value>") }, "the zone is SphericalZone" },
        { "no time zone", text => text with { End = "2026-03-02T14:00:00" }, "has no offset; say the time zone" },
        { "a dangling item", text => text with { Measurements = QifText.Bore("10").Replace(">30<", ">99<", StringComparison.Ordinal) }, "names no CharacteristicItem" },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void A_broken_document_imports_nothing_and_says_where(string what, Func<QifText, QifText> edit, string said)
    {
        var read = InspectionFile.Read(edit(new QifText()).Bytes, Small);

        Assert.True(read.Values.Count == 0, what);
        Assert.Contains(read.Problems, problem => problem.StartsWith("line ", StringComparison.Ordinal) && problem.Contains(said, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]><a>&x;</a>", "a document type is not allowed")]
    [InlineData("<QIFDocument xmlns=\"http://qifstandards.org/xsd/qif2\" versionQIF=\"2.1.0\"/>", "QIFDocument of http://qifstandards.org/xsd/qif3 is needed")]
    [InlineData("<QIFDocument xmlns=\"http://qifstandards.org/xsd/qif3\" versionQIF=\"2.1.0\"/>", "versionQIF is \"2.1.0\"")]
    [InlineData("<a><b></a>", "line 1:")]
    public void What_is_no_QIF_or_wants_more_than_reading_is_refused(string text, string said) =>
        Assert.Contains(said, Assert.Single(InspectionFile.Read(Encoding.UTF8.GetBytes(text), Small).Problems), StringComparison.Ordinal);

    [Fact]
    public void Any_cut_of_a_document_imports_nothing()
    {
        var whole = new QifText().Bytes;
        for (var length = 1; length < whole.Length - 20; length += 97)
        {
            var read = InspectionFile.Read(whole.AsMemory(0, length), Small);
            Assert.Empty(read.Values);
            Assert.NotEmpty(read.Problems);
        }
    }

    private static InspectionImport Good(QifText text)
    {
        var read = InspectionFile.Read(text.Bytes, Small);
        Assert.Empty(read.Problems);
        return read;
    }
}
