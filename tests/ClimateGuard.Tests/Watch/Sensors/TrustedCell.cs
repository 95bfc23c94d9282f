using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>A virtual cell whose every reading is judged as it comes; arrival is the cell's own time.</summary>
internal sealed class TrustedCell
{
    private readonly VirtualCell cell;

    public TrustedCell(Cell description, int seed, DateTimeOffset start, Script? script = null)
    {
        Cell = description;
        Trust = new SensorTrust(description);
        cell = new VirtualCell(description, new VirtualCellOptions(seed, start, script ?? Script.Empty) { Past = TimeSpan.FromHours(12) });
    }

    public Cell Cell { get; }

    public SensorTrust Trust { get; }

    public long Readings { get; private set; }

    public Dictionary<(string Sensor, TrustReason Reason), long> Quarantined { get; } = [];

    public List<AlertRaised> Alerts { get; } = [];

    public DateTimeOffset Now => cell.Now;

    public void Do(CellAction action) => cell.Do(action);

    public void Run(TimeSpan duration)
    {
        var end = cell.Now + duration;
        while (cell.Now < end)
        {
            cell.Advance(cell.Now.AddSeconds(10), Take, _ => { });
        }
    }

    /// <summary>Lets time pass until an alert of that cause names the sensor.</summary>
    /// <returns>How long it took, or null when it was not told.</returns>
    public TimeSpan? RunUntil(string sensor, TrustReason cause, TimeSpan most)
    {
        var begin = cell.Now;
        while (cell.Now < begin + most)
        {
            cell.Advance(cell.Now.AddSeconds(10), Take, _ => { });
            if (Trust.ConditionsOf(Cell.IndexOfSensor(sensor)).Any(condition => condition.Cause == cause))
            {
                return cell.Now - begin;
            }
        }

        return null;
    }

    public string Summary() =>
        $"{Readings} readings; " + string.Join(", ", Quarantined.OrderByDescending(q => q.Value).Select(q => $"{q.Key.Sensor} {q.Key.Reason} {q.Value}"))
        + "; " + string.Join(" | ", Alerts.Select(a => $"{a.Time:ddd HH:mm} {a.Alert.Id}{(a.Alert.Cleared ? " over" : "")} {a.Alert.Text}"));

    private void Take(Reading reading)
    {
        var judged = Trust.Judge(new Arrival { Reading = reading, ArrivedAt = cell.Now });
        Alerts.AddRange(Trust.TakeAlerts());
        Readings++;
        if (judged.Trust == ClimateGuard.Watch.Trust.Quarantined)
        {
            var key = (Cell.Sensors[reading.Sensor].Id, judged.Reason);
            Quarantined[key] = Quarantined.GetValueOrDefault(key) + 1;
        }
    }
}
