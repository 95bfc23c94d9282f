namespace ClimateGuard.Simulator;

/// <summary>Something a script does to the cell. A closed set.</summary>
public abstract record CellAction
{
    private protected CellAction()
    {
    }

    internal abstract void Apply(VirtualCell cell, DateTimeOffset at);
}
