using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Files;

/// <summary>The words of QIF 3.0 (ISO 23952) for what a device does about temperature.</summary>
public static class CompensationWords
{
    /// <summary>The words, for messages.</summary>
    public const string Allowed = "NONE, DEVICE_ONLY, DEVICE_AND_PART_SAME, DEVICE_AND_PART_SEPARATE or blank for not known";

    /// <summary>The word of a mode; empty when it is not known.</summary>
    public static string Word(DeviceCompensation mode) => mode switch
    {
        DeviceCompensation.None => "NONE",
        DeviceCompensation.DeviceOnly => "DEVICE_ONLY",
        DeviceCompensation.DeviceAndPartSame => "DEVICE_AND_PART_SAME",
        DeviceCompensation.DeviceAndPartSeparate => "DEVICE_AND_PART_SEPARATE",
        _ => "",
    };

    /// <summary>The mode of a word, or null when there is no such word.</summary>
    public static DeviceCompensation? Read(string word)
    {
        foreach (var mode in Enum.GetValues<DeviceCompensation>())
        {
            if (Word(mode) == word)
            {
                return mode;
            }
        }

        return null;
    }
}
