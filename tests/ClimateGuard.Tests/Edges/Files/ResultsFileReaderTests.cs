using ClimateGuard.Edges.Files;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Files;

public sealed class ResultsFileReaderTests
{
    private const string Header = "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm\n";

    [Fact]
    public void A_blank_is_not_zero_and_a_hole_vector_is_twice_its_length()
    {
        // Position is diametral, 2·√(dx² + dy²) (ISO 1101): 30 and 40 µm give 100 µm.
        var (values, problems) = ResultsFileReader.Parse(Header + "S1,D-1,40,M1,holes,1,,,30,40\nS1,D-1,40,M1,holes,2,,,,\n", SmallCell.Of());

        Assert.Empty(problems);
        Assert.Equal(100.0, Assert.Single(values).DeviationMicrometres, 1e-9);
    }

    [Theory]
    [InlineData("S1,D-2,40,M1,holes,1,,5,,", "line 2: part D-2 is not in the plant file; did you mean D-1?")]
    [InlineData("S1,D-1,40,M1,hole,1,,5,,", "has no feature hole; did you mean holes?")]
    [InlineData("S1,D-1,40,M7,holes,1,,5,,", "machine M7 is not in the plant file")]
    [InlineData("S1,D-1,40,M1,holes,1,,\"5,2\",,", "deviationUm is \"5,2\"")]
    [InlineData("S1,D-1,40,M1,holes,1,,5,2,,", "line 2: 11 fields under 10 column names; is there a decimal comma?")]
    [InlineData("S1,D-1,40,M1,holes,1,,NaN,,", "deviationUm is \"NaN\"")]
    [InlineData(",D-1,40,M1,holes,1,,5,,", "a serial of 1 to 200 characters")]
    public void One_bad_row_imports_nothing_and_says_where(string row, string said)
    {
        var (values, problems) = ResultsFileReader.Parse(Header + row + "\nS1,D-1,40,M1,holes,2,,5,,\n", SmallCell.Of());

        Assert.Empty(values);
        Assert.Contains(said, Assert.Single(problems), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("serial;part;operation\n")]
    public void A_file_without_its_header_is_refused(string text) =>
        Assert.StartsWith("line 1:", Assert.Single(ResultsFileReader.Parse(text, SmallCell.Of()).Problems), StringComparison.Ordinal);

    [Fact]
    public void An_override_was_right_when_everything_inspected_is_in_tolerance_and_one_that_never_counted_has_no_score()
    {
        var values = ResultsFileReader.Parse(Header + "S1,D-1,40,M1,holes,1,,59.9,,\nS2,D-1,40,M1,holes,1,,60.1,,\nS3,D-1,40,M1,holes,1,,70,,\n", SmallCell.Of()).Values;
        (string, ActiveOverride) Taken(string serial, bool inForce) => ("M1", new ActiveOverride(
            serial, "40", "A. Berg", "C. Dahl", "deadline", Some.Morning, Some.Morning.AddHours(1), inForce));

        var scores = OverrideScore.Of([Taken("S1", true), Taken("S2", true), Taken("S3", false), Taken("S4", true)], values);

        Assert.Equal([("S1", true), ("S2", false)], scores.Select(score => (score.Serial, score.Right)));
    }
}
