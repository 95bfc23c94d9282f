namespace ClimateGuard.Thermal;

internal sealed partial class StepProbe
{
    /// <summary>The numbers that stay during a cut and multiply this column; a pair of such numbers is counted once.</summary>
    private static Factor[] Factors(KernelLayout layout, int column, int number, Dictionary<(int Column, int By), double[]> products)
    {
        var found = new List<Factor>();
        foreach (var by in layout.Fixed)
        {
            if (products.TryGetValue((column, by), out var product) && Largest(product, number) > Negligible)
            {
                found.Add(new(layout.SlotOf(by), ChebyshevSeries.Through(product.AsSpan(number * ChebyshevSeries.Nodes, ChebyshevSeries.Nodes))));
            }
        }

        return [.. found];
    }

    /// <summary>[(column, number that multiplies it)][number·nodes + node]; only those that are not nothing.</summary>
    private Dictionary<(int Column, int By), double[]> ReadProducts(KernelLayout layout, double reach)
    {
        var products = new Dictionary<(int, int), double[]>();
        for (var column = 1; column < StepInputs.Count + layout.Slots; column++)
        {
            var slot = column - StepInputs.Count;
            foreach (var by in layout.Fixed)
            {
                var bySlot = layout.SlotOf(by);
                var counted = slot >= 0 && !layout.IsMoving(layout.Live[slot]) && slot <= bySlot;
                if (by != StateLayout.LogTimeConstant && !counted && Array.Exists(Product(layout, column, by, 0, 1), value => Math.Abs(value) > Negligible))
                {
                    products[(column, by)] = Product(layout, column, by, reach, ChebyshevSeries.Nodes);
                }
            }
        }

        return products;
    }

    /// <summary>Second differences, [number·nodes + node].</summary>
    private double[] Product(KernelLayout layout, int column, int by, double reach, int nodes)
    {
        var product = new double[count * ChebyshevSeries.Nodes];
        for (var node = 0; node < nodes; node++)
        {
            var at = reach * ChebyshevSeries.Node(node);
            var (origin, one) = (Unit(layout, -1, at), Unit(layout, column, at));
            var (other, both) = (Unit(layout, StepInputs.Count + layout.SlotOf(by), at), Unit(layout, column, at, by));
            for (var number = 0; number < count; number++)
            {
                product[(number * ChebyshevSeries.Nodes) + node] = both[number] - one[number] - other[number] + origin[number];
            }
        }

        return product;
    }
}
