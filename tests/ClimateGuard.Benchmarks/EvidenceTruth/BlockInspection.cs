using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>The inspection of a block: the file a shop would get, and the same measurements at 20 °C beside what was true.</summary>
internal static class BlockInspection
{
    private const string Operation = "40";
    private static readonly DeviceMode[] Modes = [DeviceMode.DeviceAndPartSeparate, DeviceMode.DeviceOnly, DeviceMode.DeviceAndPartSame];

    public static (IReadOnlyList<string> Results, IReadOnlyList<TrueDeviation> Truth) Of(VirtualCell world, BlockStory story, int seed)
    {
        // The same seed and the same order give the same errors of measuring: one device as it is, one in a room at 20 °C.
        var warm = new Random(seed);
        var device = Device(world, story, seed);
        device.Mode = Modes[seed / 10 % Modes.Length];
        device.Celsius = (20 + (2 * (warm.NextDouble() - 0.5)), 20 + (warm.NextDouble() - 0.5));
        var at20 = Device(world, story, seed);
        var zone = TimeZoneInfo.FindSystemTimeZoneById(world.Description.Description.TimeZone);
        var cut = world.Cuts.Select(record => record.Serial).ToHashSet(StringComparer.Ordinal);
        var lines = new List<string> { InspectionRow.Header };
        var truth = new List<TrueDeviation>();
        foreach (var ask in world.Asks.Where(ask => cut.Contains(ask.Serial)))
        {
            var inspected = ask.Time + ask.Duration + TimeSpan.FromHours(2);
            var name = TimeZoneInfo.ConvertTime(ask.Time, zone).Hour is >= 14 and < 22 ? "CMM-1 operator B" : "CMM-1 operator A";
            foreach (var (row, plain) in device.Inspect(ask, inspected).Zip(at20.Inspect(ask, inspected)))
            {
                var feature = world.Description.FindPart(ask.Part)!.Features.First(one => one.Id == row.Feature);
                var error = row.Hole is null ? story.Errors.GetValueOrDefault(ask.Serial) * feature.ToleranceMillimetres * 1000 : 0;
                lines.Add((row with { DeviationMicrometres = row.DeviationMicrometres + error }).Line(Operation, name));
                truth.Add(True(world, story, plain, feature, error));
            }
        }

        return (lines, truth);
    }

    private static InspectionDevice Device(VirtualCell world, BlockStory story, int seed)
    {
        var device = new InspectionDevice(world, seed);
        foreach (var (serial, shift) in story.Shifts) device.Shifts[serial] = shift;
        foreach (var (serial, offset) in story.Offsets) device.Offsets[serial] = offset;
        return device;
    }

    private static TrueDeviation True(VirtualCell world, BlockStory story, InspectionRow row, Feature feature, double error)
    {
        var scripted = story.Batch.Contains(row.Cut.Serial) ? "batch" : story.Nights.Contains(row.Cut.Serial) ? "nights" : "";
        var share = row.Hole is { } number && feature is PositionFeature pattern ? number / (double)pattern.Points.Count : 1;
        var minute = world.Truth!.At(row.Cut.Machine, row.Cut.Serial, row.Cut.Time + (row.Cut.Duration * share) - TimeSpan.FromMinutes(1))!.Value;
        var moved = minute.Position - row.Cut.ProbedAt;
        var indexAxis = world.FindMachine(row.Cut.Machine)!.Machine.IndexAxis;
        if (row.Hole is { } hole && feature is PositionFeature position)
        {
            var (x, y) = TrueEffect.Hole(position, hole - 1, minute.StrainMicrometresPerMetre, moved, indexAxis);
            return new TrueDeviation(row.Cut.Serial, row.Feature, hole, row.DxMicrometres!.Value, row.DyMicrometres!.Value, x, y, scripted);
        }

        var effect = TrueEffect.Micrometres(feature, minute.StrainMicrometresPerMetre, moved, indexAxis);
        return new TrueDeviation(row.Cut.Serial, row.Feature, null, row.DeviationMicrometres + error, 0, effect, 0, scripted);
    }
}
