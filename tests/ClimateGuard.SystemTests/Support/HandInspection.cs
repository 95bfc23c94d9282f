using System.Globalization;
using System.Text;

namespace ClimateGuard.SystemTests.Support;

/// <summary>The disc of <see cref="HandCell"/> cut for a moment and measured by an invented device that writes decimal commas.</summary>
public static class HandInspection
{
    /// <summary>How the files of the device are read.</summary>
    public const string Mapping = """
        { "device": "CMM-2", "unit": "mm", "separator": ";", "decimal": ",", "compensation": "DEVICE_AND_PART_SEPARATE", "uUm": 2,
          "columns": { "serial": "Teil", "feature": "Merkmal", "hole": "Loch", "dx": "dX", "dy": "dY" },
          "fixed": { "part": "DISC", "operation": "40" }, "features": { "Lochkreis": "holes" } }
        """;

    /// <summary>Loads a disc and cuts it.</summary>
    public static async Task CutAsync(WorkerProcess worker, MqttBystander bystander, string serial)
    {
        await worker.PostAsync("/api/v1/machines/M1/job", $$"""{"serial":"{{serial}}","part":"DISC","operation":"40","startC":20.0,"startU":0.1,"pallet":"P1","program":"O1 r2"}""");
        await Task.Delay(500);
        await worker.PostAsync("/api/v1/events", $$"""{"type":"cutStarted","machine":"M1","serial":"{{serial}}","operation":"40","tool":"T1"}""");
        await bystander.SendAsync("cg/hand/reading/air/a1", "20.01");
        await Task.Delay(1500);
        await worker.PostAsync("/api/v1/events", $$"""{"type":"cutFinished","machine":"M1","serial":"{{serial}}","operation":"40"}""");
        await Task.Delay(500);
    }

    /// <summary>Twelve holes a few µm off.</summary>
    public static string Holes(string serial)
    {
        var text = new StringBuilder("Teil;Merkmal;Loch;dX;dY\n");
        for (var hole = 1; hole <= 12; hole++)
        {
            text.Append(string.Create(CultureInfo.InvariantCulture, $"{serial};Lochkreis;{hole};{0.001 * (hole % 4)};{0.002 * (hole % 3)}").Replace('.', ',')).Append('\n');
        }

        return text.ToString();
    }
}
