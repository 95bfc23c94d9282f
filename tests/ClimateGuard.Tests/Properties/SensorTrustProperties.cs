using ClimateGuard.Plant;
using ClimateGuard.Tests.Watch.Sensors;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class SensorTrustProperties
{
    private const int Sensors = 4;

    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    private static readonly double[] Odd = [20.0, 25.0, 68.0, 293.15, 204.0, 85.0, -127.0, 0.0];
    private static readonly int[] WrongClocks = [420, 31_536_000, -31_536_000];

    // A value, how late or early its stamp is, and whether the broker kept it.
    private static readonly Gen<Arrival> AnyArrival = Gen.Select(
        Gen.Int[0, Sensors - 1],
        Gen.Int[0, 720],
        Gen.Frequency((20, Gen.Double[19.8, 20.2]), (2, Gen.Int[0, 7].Select(i => Odd[i])), (1, Gen.Double[-300, 70_000])),
        Gen.Frequency((20, Gen.Const(0)), (2, Gen.Int[-4000, 600]), (1, Gen.Int[0, 2].Select(i => WrongClocks[i]))),
        Gen.Frequency((30, Gen.Const(false)), (1, Gen.Const(true))),
        (sensor, tick, value, ahead, retained) => new Arrival
        {
            Reading = new Reading(sensor, Begin.AddSeconds((tick * 10) + ahead).ToUnixTimeMilliseconds(), value),
            ArrivedAt = Begin.AddSeconds(tick * 10),
            Retained = retained,
        });

    [Fact]
    public void Nothing_is_thrown_away_each_reading_ends_accepted_corrected_or_quarantined_with_its_raw_value() =>
        AnyArrival.Array[0, 500].Sample(
            arrivals =>
            {
                var trust = new SensorTrust(QuietZone.Cell);
                var ended = new int[3];
                foreach (var arrival in arrivals.OrderBy(a => a.ArrivedAt))
                {
                    var judged = trust.Judge(arrival);
                    ended[(int)judged.Trust]++;
                    Assert.Equal(arrival.Reading, judged.Raw);
                    Assert.Equal(judged.Trust == Trust.Accepted, judged.Reason == TrustReason.None);
                    Assert.True(judged.Trust != Trust.Accepted || (judged.Value == judged.Raw.Value && judged.Time == judged.Raw.Time));
                    Assert.True(judged.Trust == Trust.Quarantined || judged.Time <= arrival.ArrivedAt + SensorTrust.FutureAllowance);
                }

                Assert.Equal(arrivals.Length, ended.Sum());
                Assert.Equal(ended[(int)Trust.Quarantined], Enumerable.Range(0, Sensors).Sum(sensor => trust.CountsOf(sensor).SetAside));
            },
            iter: 300);

    [Fact]
    public void No_judgement_depends_on_the_order_in_which_other_sensors_are_heard() =>
        Gen.Select(AnyArrival.Array[0, 500], Gen.Int).Sample(
            (arrivals, seed) =>
            {
                var (straight, shuffled) = (new SensorTrust(QuietZone.Cell), new SensorTrust(QuietZone.Cell));
                foreach (var moment in arrivals.GroupBy(a => a.ArrivedAt).OrderBy(g => g.Key))
                {
                    // Of one sensor the order stays; among the sensors of one moment it does not.
                    var turn = (seed & int.MaxValue) % Sensors;
                    var expected = moment.Select(a => straight.Judge(a)).GroupBy(j => j.Raw.Sensor).ToDictionary(g => g.Key, g => g.ToArray());
                    foreach (var own in moment.GroupBy(a => a.Reading.Sensor).OrderByDescending(g => (g.Key + turn) % Sensors))
                    {
                        Assert.Equal(expected[own.Key], own.Select(a => shuffled.Judge(a)).ToArray());
                    }
                }

                for (var sensor = 0; sensor < Sensors; sensor++)
                {
                    Assert.Equal(straight.ConditionsOf(sensor), shuffled.ConditionsOf(sensor));
                }
            },
            iter: 300);
}
