using System.Buffers;
using System.Text;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
using CsCheck;
using UnitsNet;

namespace ClimateGuard.Tests.Edges.Mqtt;

public sealed class ReadingDecoderTests
{
    private const string AllowedTime =
        "a time such as \"2026-01-10T08:00:00Z\" (RFC 3339 with offset) or 1768032000000 (milliseconds since 1970) between 2000 and 2100 is allowed";

    [Theory]
    [InlineData("20.137")]
    [InlineData(" 20.137\r\n")]
    [InlineData("2.0137e1")]
    [InlineData("\uFEFF20.137")]
    [InlineData("{\"v\":20.137}")]
    [InlineData("{\"v\":20.137,\"t\":null,\"u\":null,\"q\":null,\"more\":{\"v\":[1,{\"t\":2}]}}")]
    [InlineData("{\"v\":1,\"v\":20.137}")]
    public void A_number_alone_or_in_an_object_is_a_reading_at_its_arrival(string payload)
    {
        var result = Decode(payload);
        Assert.Null(result.Reason);
        Assert.True(result.TimeIsArrival);
        Assert.Equal(new Reading(0, MqttSome.Arrival.ToUnixTimeMilliseconds(), 20.137), result.Reading);
    }

    [Theory]
    [InlineData("1768032000123", 1768032000123)]
    [InlineData("1768032000123.9", 1768032000123)]
    [InlineData("\"2026-01-10T08:00:00.123Z\"", 1768032000123)]
    [InlineData("\"2026-01-10T09:00:00.1239+01:00\"", 1768032000123)]
    [InlineData("\"2026-01-10t08:00:00z\"", 1768032000000)]
    public void The_time_of_the_payload_rules(string time, long epoch)
    {
        var result = Decode($"{{\"t\":{time},\"v\":20.5,\"u\":\"C\",\"q\":7}}");
        Assert.Equal(new ReadingResult(new Reading(0, epoch, 20.5, 7), false, null), result);
    }

    [Theory]
    [InlineData("", "the payload is empty; ")]
    [InlineData("  ", "the payload is empty; ")]
    [InlineData("20,137", "the payload \"20,137\" has a decimal comma; a decimal point is allowed, such as 20.137")]
    [InlineData("warm", "the payload \"warm\" is no number; ")]
    [InlineData("20.1 C", "the payload \"20.1 C\" is no number; ")]
    [InlineData("open", "the payload \"open\" is no number; ")]
    [InlineData("[20.1]", "the payload \"[20.1]\" is no number; ")]
    [InlineData("\"20.1\"", "the payload \"\"20.1\"\" is no number; ")]
    [InlineData("NaN", "is not a finite number|is no number")]
    [InlineData("Infinity", "is not a finite number|is no number")]
    [InlineData("1e999", "the value is not a finite number (NaN or infinity); a number such as 20.137 is allowed")]
    [InlineData("{\"v\":1e999}", "the value is not a finite number (NaN or infinity); a number such as 20.137 is allowed")]
    [InlineData("{\"v\":NaN}", "the payload is not JSON at byte 5; ")]
    [InlineData("{\"v\":20.1", "the payload is not JSON at byte ")]
    [InlineData("{\"v\":20.1}}", "the payload is not JSON at byte ")]
    [InlineData("{\"v\":20,1}", "the payload is not JSON at byte ")]
    [InlineData("{}", "\"v\" is missing; a JSON number is needed")]
    [InlineData("{\"V\":20.1}", "\"v\" is missing; a JSON number is needed")]
    [InlineData("{\"v\":null}", "\"v\" is null; a sensor without a value sends nothing")]
    [InlineData("{\"v\":\"20,1\"}", "\"v\" is \"20,1\"; a JSON number with a decimal point and without quotes is allowed, such as 20.137")]
    [InlineData("{\"v\":{\"v\":20.1}}", "\"v\" is an object; a JSON number")]
    [InlineData("{\"v\":[20.1]}", "\"v\" is an array; a JSON number")]
    [InlineData("{\"v\":true}", "\"v\" is true; a JSON number")]
    [InlineData("{\"v\":20.1,\"u\":\"Pa\"}", "unit \"u\" is \"Pa\"; for a sensor of quantity Temperature C, F, K, °C, °F are allowed")]
    [InlineData("{\"v\":20.1,\"u\":7}", "unit \"u\" is 7; for")]
    [InlineData("{\"v\":20.1,\"q\":\"good\"}", "\"q\" is \"good\"; a sequence number, whole and not negative, is allowed")]
    [InlineData("{\"v\":20.1,\"q\":-1}", "\"q\" is -1; ")]
    [InlineData("{\"v\":20.1,\"t\":1768032000}", "\"t\" is 1768032000 (these look like seconds: milliseconds are needed); " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"t\":946684799999}", "\"t\" is 946684799999; " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"t\":4102444800000}", "\"t\" is 4102444800000; " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"t\":\"2026-01-10T08:00:00\"}", "\"t\" is \"2026-01-10T08:00:00\"; " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"t\":\"1999-12-31T23:59:59Z\"}", "\"t\" is \"1999-12-31T23:59:59Z\"; " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"t\":\"2026-02-30T08:00:00Z\"}", "\"t\" is \"2026-02-30T08:00:00Z\"; " + AllowedTime)]
    [InlineData("{\"v\":20.1,\"u\":\"\\ud800\"}", "the payload holds an escape that is no character|unit \"u\" is")]
    [InlineData("2\00\0", "the payload is not UTF-8 text; ")]
    public void What_cannot_be_read_is_refused_with_its_reason(string payload, string reason)
    {
        var result = Decode(payload);
        Assert.NotNull(result.Reason);
        Assert.Contains(reason.Split('|'), part => result.Reason.Contains(part, StringComparison.Ordinal));
    }

    [Fact]
    public void Bytes_that_are_not_UTF_8_are_refused() =>
        Assert.StartsWith("the payload is not UTF-8 text; ", Decoder().Decode(0, [0x7B, 0xFF, 0xFE], MqttSome.Arrival).Reason, StringComparison.Ordinal);

    [Fact]
    public void Ten_megabytes_are_refused_by_their_size_and_not_copied()
    {
        var payload = new ReadOnlySequence<byte>(new byte[10_000_000]);
        var decoder = Decoder();
        decoder.Decode(0, payload, MqttSome.Arrival);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var result = decoder.Decode(0, payload, MqttSome.Arrival);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 2000);
        Assert.Equal("the payload has 10000000 bytes; at most 65536 are read", result.Reason);
    }

    [Fact]
    public void A_payload_in_pieces_is_read_like_one_in_one_piece()
    {
        var first = new Piece("{\"v\":20."u8.ToArray());
        var last = first.Append("137}"u8.ToArray());
        var result = Decoder().Decode(0, new ReadOnlySequence<byte>(first, 0, last, last.Memory.Length), MqttSome.Arrival);
        Assert.Equal(20.137, result.Reading.Value);
    }

    [Theory]
    [InlineData("20.137")]
    [InlineData("{\"t\":1768032000123,\"v\":20.137,\"u\":\"C\",\"q\":5}")]
    [InlineData("{\"t\":\"2026-01-10T08:00:00.123Z\",\"v\":68.1,\"u\":\"F\",\"other\":[1,2]}")]
    public void A_good_reading_allocates_nothing(string payload)
    {
        var bytes = Encoding.UTF8.GetBytes(payload);
        var decoder = Decoder();
        for (var i = 0; i < 100; i++)
        {
            decoder.Decode(0, bytes, MqttSome.Arrival);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
        {
            decoder.Decode(0, bytes, MqttSome.Arrival);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    public static TheoryData<SensorQuantity, string, double, double> Units => new()
    {
        { SensorQuantity.Temperature, "F", 68, Temperature.FromDegreesFahrenheit(68).DegreesCelsius },
        { SensorQuantity.Temperature, "°F", -40, Temperature.FromDegreesFahrenheit(-40).DegreesCelsius },
        { SensorQuantity.Temperature, "K", 293.15, Temperature.FromKelvins(293.15).DegreesCelsius },
        { SensorQuantity.Temperature, "°C", 20.1, 20.1 },
        { SensorQuantity.RelativeHumidity, "fraction", 0.45, 45 },
        { SensorQuantity.RelativeHumidity, "%", 45, 45 },
        { SensorQuantity.Fraction, "%", 30, Ratio.FromPercent(30).DecimalFractions },
        { SensorQuantity.Pressure, "hPa", 10.5, Pressure.FromHectopascals(10.5).Pascals },
        { SensorQuantity.Pressure, "kPa", 0.25, Pressure.FromKilopascals(0.25).Pascals },
        { SensorQuantity.Pressure, "inH2O", 1.5, Pressure.FromInchesOfWaterColumn(1.5).Pascals },
        { SensorQuantity.Flow, "m3/s", 0.5, VolumeFlow.FromCubicMetersPerSecond(0.5).CubicMetersPerHour },
        { SensorQuantity.Flow, "l/s", 7, VolumeFlow.FromLitersPerSecond(7).CubicMetersPerHour },
        { SensorQuantity.Flow, "l/min", 90, VolumeFlow.FromLitersPerMinute(90).CubicMetersPerHour },
        { SensorQuantity.Power, "W", 1500, (double)Power.FromWatts(1500).Kilowatts },
        { SensorQuantity.Speed, "rpm", 4000, 4000 },
        { SensorQuantity.Contact, "open", 1, 1 },
    };

    [Theory]
    [MemberData(nameof(Units))]
    public void Units_become_the_canonical_one_as_an_independent_library_has_it(SensorQuantity quantity, string unit, double raw, double expected)
    {
        var decoder = new ReadingDecoder(MqttSome.Cell(MqttSome.Sensor("s", quantity)));
        var result = Decode(FormattableString.Invariant($"{{\"v\":{raw},\"u\":\"{unit}\"}}"), decoder);
        Assert.Null(result.Reason);

        // 1e-8 relative: the inch of water of that library is rounded in the tenth digit.
        Assert.Equal(expected, result.Reading.Value, 1e-8 * Math.Max(1, Math.Abs(expected)));
    }

    [Fact]
    public void A_conversion_adds_no_digits_of_its_own() =>
        Assert.Equal(0.57, Decode("57", new ReadingDecoder(MqttSome.Cell(MqttSome.Sensor("s", SensorQuantity.Fraction, "%")))).Reading.Value);

    [Theory]
    [InlineData("open", 1)]
    [InlineData("CLOSED", 0)]
    [InlineData("true", 1)]
    [InlineData("0", 0)]
    [InlineData("{\"v\":\"open\"}", 1)]
    [InlineData("{\"v\":false}", 0)]
    [InlineData("{\"v\":1}", 1)]
    public void A_contact_has_words_and_numbers(string payload, double value)
    {
        var result = Decode(payload, new ReadingDecoder(MqttSome.Cell(MqttSome.Sensor("s", SensorQuantity.Contact))));
        Assert.Equal((null, value), (result.Reason, result.Reading.Value));
    }

    [Fact]
    public void A_contact_of_two_is_refused() =>
        Assert.Equal(
            "a contact is 2; true, false, \"open\", \"closed\" or 0 to 1 are allowed",
            Decode("2", new ReadingDecoder(MqttSome.Cell(MqttSome.Sensor("s", SensorQuantity.Contact)))).Reason);

    [Fact]
    public void A_share_of_full_speed_and_revolutions_are_not_mixed()
    {
        var share = new ReadingDecoder(MqttSome.Cell(MqttSome.Sensor("s", SensorQuantity.Speed, "%")));
        Assert.Equal(0.6, Decode("60", share).Reading.Value);
        Assert.StartsWith("unit \"u\" is \"1/min\"; for", Decode("{\"v\":900,\"u\":\"1/min\"}", share).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hundred_thousand_mutated_payloads_give_a_finite_reading_or_a_reason()
    {
        byte[][] seeds =
        [
            "20.137"u8.ToArray(),
            "{\"t\":1768032000123,\"v\":20.137,\"u\":\"C\",\"q\":5}"u8.ToArray(),
            "{\"t\":\"2026-01-10T08:00:00.123+01:00\",\"v\":\"open\",\"u\":\"\\u00b0F\",\"x\":{\"y\":[1,null,true]}}"u8.ToArray(),
        ];
        var decoder = new ReadingDecoder(MqttSome.Cell(
            MqttSome.Sensor("t"), MqttSome.Sensor("c", SensorQuantity.Contact), MqttSome.Sensor("p", SensorQuantity.Pressure, "inH2O")));
        Mutated.Of(seeds).Sample(
            payload =>
            {
                for (var sensor = 0; sensor < 3; sensor++)
                {
                    var result = decoder.Decode(sensor, payload, MqttSome.Arrival);
                    Assert.True(result.Reason is { Length: > 0 and < 400 } || double.IsFinite(result.Reading.Value));
                }
            },
            iter: 100_000);
    }

    private static ReadingDecoder Decoder() => new(MqttSome.Cell(MqttSome.Sensor("s")));

    private static ReadingResult Decode(string payload, ReadingDecoder? decoder = null) =>
        (decoder ?? Decoder()).Decode(0, Encoding.UTF8.GetBytes(payload), MqttSome.Arrival);

    private sealed class Piece : ReadOnlySequenceSegment<byte>
    {
        public Piece(byte[] bytes) => Memory = bytes;

        public Piece Append(byte[] bytes)
        {
            var next = new Piece(bytes) { RunningIndex = RunningIndex + Memory.Length };
            Next = next;
            return next;
        }
    }
}
