namespace ClimateGuard.Evidence;

/// <summary>A sum that keeps what each addition rounds away.</summary>
/// <remarks>Neumaier's variant of Kahan's summation, Z. angew. Math. Mech. 54 (1974) 39 (from memory).</remarks>
internal struct ExactSum
{
    private double _sum;
    private double _lost;

    public readonly double Value => _sum + _lost;

    public void Add(double value)
    {
        var next = _sum + value;
        _lost += Math.Abs(_sum) >= Math.Abs(value) ? (_sum - next) + value : (value - next) + _sum;
        _sum = next;
    }

    /// <summary>Adds a product with its rounding error.</summary>
    public void AddProduct(double left, double right)
    {
        var product = left * right;
        Add(product);
        _lost += Math.FusedMultiplyAdd(left, right, -product);
    }

    public static double Of(IReadOnlyList<double> values)
    {
        var sum = default(ExactSum);
        for (var i = 0; i < values.Count; i++) sum.Add(values[i]);
        return sum.Value;
    }
}
