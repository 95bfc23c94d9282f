using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>Notes each value that stands in for a key left out.</summary>
internal sealed class DefaultsTaken
{
    private readonly List<DefaultUsed> taken = [];

    public IReadOnlyList<DefaultUsed> All => taken;

    /// <summary>The value stated, else the stand-in, which is noted.</summary>
    public T Or<T>(T? stated, string path, T standIn)
        where T : struct
    {
        if (stated is { } value)
        {
            return value;
        }

        Note(path, Written(standIn));
        return standIn;
    }

    /// <summary>The text stated, else the stand-in, which is noted.</summary>
    public string Or(string? stated, string path, string standIn)
    {
        if (stated is not null)
        {
            return stated;
        }

        Note(path, standIn);
        return standIn;
    }

    /// <summary>The list stated, else an empty one, which is noted.</summary>
    public IReadOnlyList<T> OrNone<T>(IReadOnlyList<T>? stated, string path)
    {
        if (stated is not null)
        {
            return stated;
        }

        Note(path, "[]");
        return [];
    }

    public void Note(string path, string value) => taken.Add(new DefaultUsed(path, value));

    /// <summary>A value as it would be written in the plant file.</summary>
    public static string Written<T>(T value)
        where T : struct => value switch
        {
            bool flag => flag ? "true" : "false",
            double number => number.ToString("R", CultureInfo.InvariantCulture),
            Enum word => word.ToString() is var name ? char.ToLowerInvariant(name[0]) + name[1..] : "",
            _ => value.ToString() ?? "",
        };
}
