using ClimateGuard.Edges.Influx;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Influx;

/// <summary>Beside a plain dictionary that remembers everything, which is the oracle.</summary>
public sealed class FirstValuesTests
{
    [Fact]
    public void With_every_question_answered_it_judges_as_if_it_remembered_everything() =>
        Gen.Select(Gen.Int[1, 3_000], Gen.Int[1, 400], Gen.Int[0, 1_000_000]).Sample((count, batch, seed) =>
        {
            var random = new Random(seed);
            var oracle = new Dictionary<(string, long), double>();
            var firsts = new FirstValues();
            firsts.Learn([]);
            var time = 0L;
            for (var done = 0; done < count; done += batch)
            {
                var rows = Enumerable.Range(0, batch).Select(_ =>
                {
                    time += random.Next(0, 3);
                    return (Sensor: $"s{random.Next(2)}", Time: random.Next(8) == 0 ? random.NextInt64(0, time + 1) : time, Raw: (double)random.Next(2));
                }).ToArray();
                foreach (var row in rows.Where(row => firsts.MustAsk(row.Sensor, row.Time) && oracle.ContainsKey((row.Sensor, row.Time))))
                {
                    firsts.Tell(row.Sensor, row.Time, oracle[(row.Sensor, row.Time)]);
                }

                foreach (var (sensor, at, raw) in rows)
                {
                    var expected = oracle.TryAdd((sensor, at), raw) ? Standing.First : oracle[(sensor, at)] == raw ? Standing.Again : Standing.Duplicate;
                    Assert.Equal(expected, firsts.Take(sensor, at, raw));
                }

                firsts.Settle();
            }
        }, iter: 200);

    [Fact]
    public void What_is_new_or_a_little_late_needs_no_question()
    {
        var firsts = new FirstValues();
        firsts.Learn([("s", 1_000)]);
        Assert.True(firsts.MustAsk("s", 1_000));
        Assert.False(firsts.MustAsk("s", 1_001));
        Assert.False(firsts.MustAsk("other", 0));
        for (var t = 1_001; t < 3_000; t++)
        {
            Assert.Equal(Standing.First, firsts.Take("s", t, 1));
        }

        firsts.Settle();
        Assert.False(firsts.MustAsk("s", 2_800));
        Assert.True(firsts.MustAsk("s", 2_000));
    }

    [Fact]
    public void After_a_failed_write_it_knows_nothing()
    {
        var firsts = new FirstValues();
        firsts.Learn([]);
        firsts.Take("s", 1, 1);
        firsts.Forget();
        Assert.False(firsts.Known);
        firsts.Learn([("s", 5)]);
        Assert.True(firsts.MustAsk("s", 1));
    }
}
