using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Edges.Mqtt;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Json;

public sealed class EventDecoderTests
{
    private static readonly DateTimeOffset Noon = new(2026, 1, 10, 12, 0, 0, TimeSpan.Zero);

    public static TheoryData<string, string, CellEvent> Good => new()
    {
        {
            "job",
            """{"serial":"S1","part":"CP-100","operation":40,"pallet":"P3","plannedMinutes":12.5,"enteredCell":"2026-01-10T11:00:00+01:00","startC":16.5,"startU":0.4,"t":1768046400000,"x":[{}]}""",
            new JobLoaded(Noon, "M1")
            {
                Serial = "S1", Part = "CP-100", Operation = "40", Pallet = "P3", Planned = TimeSpan.FromMinutes(12.5),
                EnteredCell = Noon.AddHours(-2), Start = new Celsius(16.5), StartUncertainty = new Kelvins(0.4),
            }
        },
        {
            "job",
            """{"serial":"S2","part":"CP-100","operation":"40","origin":"wash","t":1768046400000}""",
            new JobLoaded(Noon, "M1") { Serial = "S2", Part = "CP-100", Operation = "40", Origin = "wash" }
        },
        { "job", """{"serial":"","t":1768046400000}""", new JobLoaded(Noon, "M1") { Serial = "", Part = "" } },
        {
            "permitRequest",
            """{"serial":"S1","part":"CP-100","operation":"40","feature":"bore","requestId":"r1","sentAt":1768046399000,"time":"2026-01-10T12:00:00Z"}""",
            new PermitRequested(Noon, "M1")
            {
                Serial = "S1", Part = "CP-100", Operation = "40", Feature = "bore", RequestId = "r1", SentAt = Noon.AddSeconds(-1),
            }
        },
        { "cutStarted", """{"serial":"S1","operation":"40","hole":3,"t":1768046400000}""", new CutMoved(Noon, "M1") { Started = true, Serial = "S1", Operation = "40", Hole = 3 } },
        { "cutFinished", """{"serial":"S1","operation":"40","t":1768046400000}""", new CutMoved(Noon, "M1") { Started = false, Serial = "S1", Operation = "40" } },
        { "measurement", """{"kind":"reprobe","axis":"Z","deltaUm":-4.5,"uUm":1,"t":1768046400000}""", new DatumReprobed(Noon, "M1") { Axis = Axis.Z, DeltaMicrometres = -4.5, UMicrometres = 1 } },
        { "measurement", """{"kind":"span","lengthMm":600,"errorUm":-21,"uUm":2,"t":1768046400000}""", new SpanProbed(Noon, "M1") { LengthMillimetres = 600, ErrorMicrometres = -21, UMicrometres = 2 } },
        { "measurement", """{"kind":"contact","valueC":18.2,"uC":0.3,"t":1768046400000}""", new ContactMeasured(Noon, "M1") { Value = new Celsius(18.2), Uncertainty = new Kelvins(0.3) } },
        { "coolant", """{"on":true,"t":1768046400000}""", new CoolantSwitched(Noon, "M1", true) },
        { "coolant", """{"on":false,"dry":true,"t":1768046400000}""", new CoolantSwitched(Noon, "M1", false, Dry: true) },
        { "machineState", """{"running":true,"powerKw":4.5,"spindleRpm":4000,"t":1768046400000}""", new MachineRunning(Noon, "M1", true, 4.5, 4000) },
        { "findingOutcome", """{"finding":"F07-ahu1-202603041400","by":"Anna","seen":false,"t":1768046400000}""", new FindingOutcome(Noon, "F07-ahu1-202603041400", "Anna") },
        {
            "findingOutcome",
            """{"finding":"F07-ahu1-202603041400","by":"Anna","close":true,"verified":"F07","fixedBy":"new filter","t":1768046400000}""",
            new FindingOutcome(Noon, "F07-ahu1-202603041400", "Anna") { Closes = true, Cause = "F07", FixedBy = "new filter" }
        },
        {
            "offsetSet",
            """{"serial":"S1","scale":0.99998,"shiftXUm":-1.5,"shiftZUm":2,"by":"R. Lindt","t":1768046400000}""",
            new OffsetSet(Noon, "M1") { Serial = "S1", ScaleFactor = 0.99998, ShiftXMicrometres = -1.5, ShiftZMicrometres = 2, By = "R. Lindt" }
        },
        { "door", """{"sensor":"door/roller","open":false,"t":1768046400000}""", new DoorMoved(Noon, "door/roller", false) },
        {
            "override",
            """{"serial":"S1","operation":"40","by":"Anna","reason":"test piece","until":"2026-01-10T13:00:00Z","t":1768046400000}""",
            new Overridden(Noon, "M1") { Serial = "S1", Operation = "40", By = "Anna", Reason = "test piece", Until = Noon.AddHours(1) }
        },
    };

    [Theory]
    [MemberData(nameof(Good))]
    public void Each_event_is_read_from_a_payload(string type, string payload, CellEvent expected)
    {
        var result = EventDecoder.Decode(type, type == "door" ? null : "M1", Encoding.UTF8.GetBytes(payload), MqttSome.Arrival);
        Assert.Null(result.Reason);
        Assert.Equal(expected, result.Event);
        Assert.False(result.TimeIsArrival);
    }

    [Theory]
    [InlineData("""["x","Z"]""")]
    [InlineData("\"xz\"")]
    public void A_probed_datum_names_its_axes(string axes)
    {
        var result = EventDecoder.Decode("datumProbed", "M1", Encoding.UTF8.GetBytes($"{{\"axes\":{axes}}}"), Noon);
        Assert.Equal([Axis.X, Axis.Z], Assert.IsType<DatumProbed>(result.Event).Axes);
        Assert.True(result.TimeIsArrival);
    }

    [Fact]
    public void An_empty_job_means_that_nothing_is_loaded()
    {
        var result = EventDecoder.Decode("job", "M1", default, Noon);
        Assert.True(Assert.IsType<JobLoaded>(result.Event).IsUnload);
        Assert.True(result.TimeIsArrival);
    }

    [Fact]
    public void A_line_of_a_file_names_its_time_and_type()
    {
        var result = EventDecoder.DecodeLine("""{"time":"2026-01-10T12:00:00Z","type":"coolant","machine":"M1","on":false}"""u8.ToArray());
        Assert.Equal(new CoolantSwitched(Noon, "M1", false), result.Event);
        Assert.StartsWith(
            "coolant: field \"time\" is missing; a time such as",
            EventDecoder.DecodeLine("""{"type":"coolant","machine":"M1","on":false}"""u8.ToArray()).Reason,
            StringComparison.Ordinal);
        Assert.StartsWith("event: field \"type\" is missing; ", EventDecoder.DecodeLine("{}"u8.ToArray()).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_body_may_leave_out_its_time()
    {
        var result = EventDecoder.DecodeBody("""{"type":"coolant","machine":"M1","on":false}"""u8.ToArray(), Noon);
        Assert.Equal((new CoolantSwitched(Noon, "M1", false), true), (result.Event, result.TimeIsArrival));
    }

    [Theory]
    [InlineData("coolant", "", "the event is empty; a JSON object with the fields of the event is allowed")]
    [InlineData("coolant", "[1]", "the event is [1]; a JSON object")]
    [InlineData("coolant", "{\"on\":", "the event is not JSON (byte 6); a JSON object")]
    [InlineData("coolant", "{}", "coolant: field \"on\" is missing; true or false is needed")]
    [InlineData("coolant", "{\"on\":1}", "coolant: field \"on\" is 1; true or false is allowed")]
    [InlineData("coolant", "{\"on\":true,\"machine\":\"M2\"}", "coolant: field \"machine\" is \"M2\"; \"M1\", where it was sent to, is allowed")]
    [InlineData("coolant", "{\"on\":true,\"t\":\"noon\"}", "coolant: field \"t\" is \"noon\"; a time such as")]
    [InlineData("coolant", "{\"on\":true,\"t\":1768046400}", "coolant: field \"t\" is 1768046400; a time such as")]
    [InlineData("job", "{\"part\":\"P\",\"operation\":\"40\"}", "job: field \"serial\" is missing; a text of at most 200 characters")]
    [InlineData("job", "{\"serial\":\"S\",\"part\":\"\",\"operation\":\"40\"}", "job: field \"part\" is empty; a text of 1 to 200 characters without control characters is allowed")]
    [InlineData("job", "{\"serial\":\"S\\u0007\",\"part\":\"P\",\"operation\":\"40\"}", "job: field \"serial\" is \"S\\u0007\"; a text")]
    [InlineData("job", "{\"serial\":\"S\",\"part\":\"P\",\"operation\":\"40\",\"startC\":\"16,5\"}", "job: field \"startC\" is \"16,5\"; a number (°C) from -90 to 400 is allowed")]
    [InlineData("job", "{\"serial\":\"S\",\"part\":\"P\",\"operation\":\"40\",\"startC\":1650}", "job: field \"startC\" is 1650; a number (°C) from -90 to 400 is allowed")]
    [InlineData("job", "{\"serial\":\"S\",\"part\":\"P\",\"operation\":\"40\",\"startU\":1}", "job: field \"startU\" stands alone")]
    [InlineData("measurement", "{\"kind\":\"laser\"}", "measurement: field \"kind\" is \"laser\"; \"reprobe\", \"span\" or \"contact\" is allowed")]
    [InlineData("measurement", "{\"kind\":\"reprobe\",\"axis\":\"b\",\"deltaUm\":1,\"uUm\":1}", "measurement: field \"axis\" is \"b\"; \"x\", \"y\" or \"z\" is allowed")]
    [InlineData("measurement", "{\"kind\":\"reprobe\",\"axis\":\"x\",\"uUm\":1}", "measurement: field \"deltaUm\" is missing; a number (µm) from -100000 to 100000 is needed")]
    [InlineData("measurement", "{\"kind\":\"span\",\"lengthMm\":0,\"errorUm\":1,\"uUm\":1}", "measurement: field \"lengthMm\" is 0; a number (mm) from 0.001 to 20000 is allowed")]
    [InlineData("measurement", "{\"kind\":\"contact\",\"valueC\":20,\"uC\":1e999}", "measurement: field \"uC\" is 1e999; a number (K) from 0 to 100 is allowed")]
    [InlineData("datumProbed", "{\"axes\":[]}", "datumProbed: field \"axes\" is []; [\"x\",\"y\",\"z\"] or some of them is allowed")]
    [InlineData("datumProbed", "{\"axes\":[\"x\",1]}", "datumProbed: field \"axes\" is [\"x\",1]; ")]
    [InlineData("cutStarted", "{\"serial\":\"S\",\"operation\":\"40\",\"hole\":1.5}", "cutStarted: field \"hole\" is 1.5; a number (whole) from 0 to 1000000 is allowed")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"seen\":true}", "findingOutcome: field \"by\" is missing; ")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"by\":\"A\"}", "findingOutcome: field \"seen\" is missing; true or false is needed")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"by\":\"A\",\"seen\":true,\"check\":\"F40\"}", "findingOutcome: field \"check\" is \"F40\"; the id of a cause, \"F01\" to \"F34\", is allowed")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"by\":\"A\",\"close\":true,\"verified\":\"filter\"}", "findingOutcome: field \"verified\" is \"filter\"; the id of a cause")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"by\":\"A\",\"close\":true,\"seen\":true}", "findingOutcome: a closing has no \"seen\" or \"check\"")]
    [InlineData("findingOutcome", "{\"finding\":\"F07-x\",\"by\":\"A\",\"seen\":true,\"verified\":\"F07\"}", "findingOutcome: \"verified\" and \"fixedBy\" close a finding")]
    [InlineData("lunch", "{}", "lunch: this type of event is not known; allowed are job, permitRequest,")]
    public void What_is_wrong_is_one_sentence_with_field_found_and_allowed(string type, string payload, string reason)
    {
        var result = EventDecoder.Decode(type, "M1", Encoding.UTF8.GetBytes(payload), Noon);
        Assert.Null(result.Event);
        Assert.StartsWith(reason, result.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_text_of_201_characters_is_refused() => Assert.StartsWith(
        "override: field \"by\" is 201 characters long; ",
        EventDecoder.Decode("override", "M1", Encoding.UTF8.GetBytes($"{{\"serial\":\"S\",\"operation\":\"40\",\"by\":\"{new string('a', 201)}\"}}"), Noon).Reason,
        StringComparison.Ordinal);

    [Fact]
    public void Mutated_events_give_an_event_or_a_reason()
    {
        byte[][] seeds = [.. Good.Select(row => Encoding.UTF8.GetBytes("{\"type\":\"" + row.Data.Item1 + "\",\"machine\":\"M1\"," + row.Data.Item2[1..]))];
        Mutated.Of(seeds).Sample(
            payload =>
            {
                var result = EventDecoder.DecodeBody(payload, Noon);
                Assert.True(result.Event is null ? result.Reason is { Length: > 0 and < 600 } : result.Reason is null);
            },
            iter: 100_000);
    }
}
