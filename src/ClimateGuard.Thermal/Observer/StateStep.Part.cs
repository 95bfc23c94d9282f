namespace ClimateGuard.Thermal;

internal sealed partial class StateStep
{
    /// <summary>
    /// Each node of the part moves to its medium and, where it touches one, to its pallet, which itself moves to the air: a driven cascade, solved
    /// exactly. A sensor that stays on the part is one node more behind its surface. Its lag is a number of the state and not a correction of its
    /// reading: a correction divides by what a step lets through and lifts the noise of a reading up to sixfold at 10 s, the state does not.
    /// </summary>
    private void FollowPart(in Transition transition, double[] mean, in Surroundings surroundings, double seconds)
    {
        var pair = response![surroundings.Medium];
        var liquid = surroundings.Medium is Medium.Mist or Medium.Flood or Medium.Submerged;
        var wetKelvins = surroundings.Medium == Medium.Wet ? response.WetPull * (surroundings.WetBulbCelsius - surroundings.AirCelsius) : 0;
        var sink = liquid ? surroundings.SinkCelsius : surroundings.AirCelsius + (wetKelvins * mean[StateLayout.WetShare]);
        var around = new PartDrive(
            sink + mean[liquid ? StateLayout.CoolantOffset : StateLayout.AirOffset],
            surroundings.AirCelsius + mean[StateLayout.AirOffset],
            mean[StateLayout.Fixture],
            liquid ? StateLayout.CoolantOffset : StateLayout.AirOffset,
            Math.Exp(-mean[StateLayout.LogTimeConstant]),
            wetKelvins,
            seconds);
        if (sensorSeconds > 0)
        {
            FollowSensor(transition, mean, pair, around);
        }

        var first = StepOf(pair.FirstSeconds, around);
        var second = pair.SecondSeconds == pair.FirstSeconds ? first : StepOf(pair.SecondSeconds, around);
        FollowNode(transition, mean, StateLayout.PartFirst, first, around);
        FollowNode(transition, mean, StateLayout.PartSecond, second, around);
    }

    private static void FollowNode(in Transition transition, double[] mean, int node, in NodeStep step, in PartDrive around)
    {
        var byLog = (step.LogKeep * mean[node]) + (step.LogMedium * around.MediumCelsius)
            + (step.LogPallet * around.PalletCelsius) + (step.LogAir * around.AirCelsius);
        transition.Begin(node, step.Keep);
        transition.Add(node, around.Offset, step.ByMedium);
        transition.Add(node, StateLayout.Fixture, step.ByPallet);
        transition.Add(node, StateLayout.AirOffset, step.ByAir);
        transition.Add(node, StateLayout.LogTimeConstant, byLog);
        transition.Add(node, StateLayout.WetShare, step.ByMedium * around.WetKelvins);
        mean[node] = (step.Keep * mean[node]) + (step.ByMedium * around.MediumCelsius)
            + (step.ByPallet * around.PalletCelsius) + (step.ByAir * around.AirCelsius);
    }

    private NodeStep StepOf(double nodeSeconds, in PartDrive around)
    {
        var medium = around.Faster / nodeSeconds * around.Seconds;
        var contact = around.Faster * response!.PalletRate * around.Seconds;
        var x = medium + contact;
        var keep = Math.Exp(-x);
        if (contact == 0)
        {
            return new(keep, Fading(x), 0, 0, x * keep, -x * keep, 0, 0);
        }

        // d/d(ln τ): every rate of the part falls together, and a divided difference answers a rate by that rate once more.
        var y = around.Seconds / fixtureSeconds;
        var byMedium = medium * CascadeResponse.Of(0, x);
        var byPallet = contact * CascadeResponse.Of(y, x);
        var byAir = contact * y * CascadeResponse.Of(0, y, x);
        return new(
            keep,
            byMedium,
            byPallet,
            byAir,
            x * keep,
            (medium * x * CascadeResponse.Of(0, x, x)) - byMedium,
            (contact * x * CascadeResponse.Of(y, x, x)) - byPallet,
            (contact * y * x * CascadeResponse.Of(0, y, x, x)) - byAir);
    }

    private void FollowSensor(in Transition transition, double[] mean, in NodePair pair, in PartDrive around)
    {
        var z = around.Seconds / sensorSeconds;
        var keep = Math.Exp(-z);
        var sum = new SensorSum { Mean = keep * mean[StateLayout.PartSensor] };
        transition.Begin(StateLayout.PartSensor, keep);
        if (pair.FirstSeconds == pair.SecondSeconds)
        {
            var only = SensorBehind(ref sum, mean[StateLayout.PartFirst], pair.FirstSeconds, z, around);
            transition.Add(StateLayout.PartSensor, StateLayout.PartFirst, pair.SurfaceFirstWeight * only);
            transition.Add(StateLayout.PartSensor, StateLayout.PartSecond, pair.SurfaceSecondWeight * only);
        }
        else
        {
            var second = sum with { Mean = 0 };
            transition.Add(StateLayout.PartSensor, StateLayout.PartFirst,
                pair.SurfaceFirstWeight * SensorBehind(ref sum, mean[StateLayout.PartFirst], pair.FirstSeconds, z, around));
            sum = sum.Weighted(pair.SurfaceFirstWeight, keep * mean[StateLayout.PartSensor]);
            transition.Add(StateLayout.PartSensor, StateLayout.PartSecond,
                pair.SurfaceSecondWeight * SensorBehind(ref second, mean[StateLayout.PartSecond], pair.SecondSeconds, z, around));
            sum = sum.Plus(second.Weighted(pair.SurfaceSecondWeight, 0));
        }

        transition.Add(StateLayout.PartSensor, around.Offset, sum.ByMedium);
        transition.Add(StateLayout.PartSensor, StateLayout.Fixture, sum.ByPallet);
        transition.Add(StateLayout.PartSensor, StateLayout.AirOffset, sum.ByAir);
        transition.Add(StateLayout.PartSensor, StateLayout.LogTimeConstant, sum.ByLog);
        transition.Add(StateLayout.PartSensor, StateLayout.WetShare, sum.ByMedium * around.WetKelvins);
        mean[StateLayout.PartSensor] = sum.Mean;
    }

    /// <summary>What a node of the part and all that drives it hand on to the sensor; the return is the weight of the node itself.</summary>
    private double SensorBehind(ref SensorSum sum, double nodeCelsius, double nodeSeconds, double z, in PartDrive around)
    {
        var t = around.Seconds;
        var medium = around.Faster / nodeSeconds * t;
        var contact = around.Faster * response!.PalletRate * t;
        var x = medium + contact;
        var byNode = z * CascadeResponse.Of(x, z);
        sum.ByMedium = z * medium * CascadeResponse.Of(0, x, z);
        sum.Mean += (byNode * nodeCelsius) + (sum.ByMedium * around.MediumCelsius);
        sum.ByLog = (nodeCelsius * z * x * CascadeResponse.Of(x, x, z))
            + (around.MediumCelsius * ((z * medium * x * CascadeResponse.Of(0, x, x, z)) - sum.ByMedium));
        if (contact > 0)
        {
            var y = t / fixtureSeconds;
            sum.ByPallet = z * contact * CascadeResponse.Of(y, x, z);
            sum.ByAir = z * contact * y * CascadeResponse.Of(0, y, x, z);
            sum.Mean += (sum.ByPallet * around.PalletCelsius) + (sum.ByAir * around.AirCelsius);
            sum.ByLog += (around.PalletCelsius * ((z * contact * x * CascadeResponse.Of(y, x, x, z)) - sum.ByPallet))
                + (around.AirCelsius * ((z * contact * y * x * CascadeResponse.Of([0, y, x, x, z])) - sum.ByAir));
        }

        return byNode;
    }

    /// <summary>What surrounds a part in one step: °C, the offset of its medium's sensor, 1/τ over the assumed 1/τ, how far a surface wet all over
    /// pulls the medium (K), and s.</summary>
    private readonly record struct PartDrive(
        double MediumCelsius, double AirCelsius, double PalletCelsius, int Offset, double Faster, double WetKelvins, double Seconds);

    /// <summary>What a node keeps and takes in one step, and how each answers an error of ln τ.</summary>
    private readonly record struct NodeStep(
        double Keep, double ByMedium, double ByPallet, double ByAir, double LogKeep, double LogMedium, double LogPallet, double LogAir);

    private record struct SensorSum
    {
        public double Mean { get; set; }

        public double ByMedium { get; set; }

        public double ByPallet { get; set; }

        public double ByAir { get; set; }

        public double ByLog { get; set; }

        /// <summary>All but what the sensor keeps of itself, weighted.</summary>
        public readonly SensorSum Weighted(double weight, double kept) => new()
        {
            Mean = kept + (weight * (Mean - kept)),
            ByMedium = weight * ByMedium,
            ByPallet = weight * ByPallet,
            ByAir = weight * ByAir,
            ByLog = weight * ByLog,
        };

        public readonly SensorSum Plus(in SensorSum other) => new()
        {
            Mean = Mean + other.Mean,
            ByMedium = ByMedium + other.ByMedium,
            ByPallet = ByPallet + other.ByPallet,
            ByAir = ByAir + other.ByAir,
            ByLog = ByLog + other.ByLog,
        };
    }
}
