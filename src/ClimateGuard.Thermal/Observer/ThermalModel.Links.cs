using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class ThermalModel
{
    /// <summary>
    /// The nodes of a part belong to one medium; when the medium changes both start again from the mean, which keeps the heat in the part.
    /// </summary>
    internal void EnterMedium(ThermalState state, Medium medium)
    {
        if (state.PartMedium == medium)
        {
            return;
        }

        var pair = NodesOf(state);
        state.PartMedium = medium;
        if (pair.SecondWeight == 0)
        {
            CopyRow(state, StateLayout.PartFirst, StateLayout.PartSecond);
            return;
        }

        Mix(state, pair);
        CopyRow(state, StateLayout.PartFirst, StateLayout.PartSecond);
    }

    private static void Mix(ThermalState state, NodePair pair)
    {
        const int First = StateLayout.PartFirst;
        const int Second = StateLayout.PartSecond;
        var n = state.Count;
        var p = state.Covariance;
        state.Mean[First] = (pair.FirstWeight * state.Mean[First]) + (pair.SecondWeight * state.Mean[Second]);
        for (var k = 0; k < n; k++)
        {
            p[(First * n) + k] = (pair.FirstWeight * p[(First * n) + k]) + (pair.SecondWeight * p[(Second * n) + k]);
        }

        for (var k = 0; k < n; k++)
        {
            p[(k * n) + First] = (pair.FirstWeight * p[(k * n) + First]) + (pair.SecondWeight * p[(k * n) + Second]);
        }
    }

    private static void CopyRow(ThermalState state, int from, int to)
    {
        var n = state.Count;
        var p = state.Covariance;
        state.Mean[to] = state.Mean[from];
        for (var k = 0; k < n; k++)
        {
            p[(to * n) + k] = p[(from * n) + k];
        }

        for (var k = 0; k < n; k++)
        {
            p[(k * n) + to] = p[(k * n) + from];
        }
    }

    /// <summary>A stochastic clone: the reference becomes the very sum of what moves the tool now, so drift since probing is zero with no doubt.</summary>
    private void CopyMovesIntoReference(ThermalState state, Axis axis)
    {
        var n = state.Count;
        var p = state.Covariance;
        var reference = Layout.Reference(axis);
        var moves = Layout.Moves(axis);
        state.Reset(reference, 0, 0);
        for (var i = 0; i < n; i++)
        {
            if (moves[i] == 0)
            {
                continue;
            }

            state.Mean[reference] += moves[i] * state.Mean[i];
            for (var k = 0; k < n; k++)
            {
                p[(reference * n) + k] += moves[i] * p[(i * n) + k];
            }
        }

        for (var k = 0; k < n; k++)
        {
            p[(k * n) + reference] = p[(reference * n) + k];
        }

        p[(reference * n) + reference] = state.Variance(moves);
    }
}
