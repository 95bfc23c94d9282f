using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Finds the sensors of cells that were in force before in the one in force, so that what was decoded by an old file goes to its own sensor.</summary>
/// <remarks>By id; a sensor that measures something else now is another sensor. Owned by the loop; the map of a cell is made once.</remarks>
internal sealed class EarlierCells(Cell cell)
{
    private Cell? mapped;
    private int[] indices = [];

    /// <summary>Index in the cell in force of a sensor of another cell, or -1 when it is not there any more.</summary>
    /// <param name="earlier">The cell that the index counts in.</param>
    /// <param name="sensor">The index.</param>
    public int IndexOf(Cell earlier, int sensor)
    {
        if (!ReferenceEquals(mapped, earlier))
        {
            indices = [.. earlier.Sensors.Select(IndexNow)];
            mapped = earlier;
        }

        return indices[sensor];
    }

    private int IndexNow(Sensor before)
    {
        var index = cell.IndexOfSensor(before.Id);
        return index >= 0 && cell.Sensors[index].Quantity == before.Quantity ? index : -1;
    }
}
