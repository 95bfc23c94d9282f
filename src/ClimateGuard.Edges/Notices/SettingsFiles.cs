using System.Text;

namespace ClimateGuard.Edges.Notices;

/// <summary>Files that a setting names: a secret is better kept in a file than in the settings.</summary>
internal static class SettingsFiles
{
    /// <summary>What is wrong with a file, or null.</summary>
    /// <param name="key">The setting that names it.</param>
    /// <param name="path">The file.</param>
    /// <param name="what">What it must hold.</param>
    /// <param name="leastBytes">How long its first line must be.</param>
    public static string? Problem(string key, string path, string what, int leastBytes)
    {
        try
        {
            var length = Encoding.UTF8.GetByteCount(FirstLine(path));
            return length >= leastBytes ? null : $"{key} is \"{path}\", whose first line has {length} bytes; {what}, at least {leastBytes} bytes, is needed";
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return $"{key} is \"{path}\", which {(File.Exists(path) ? "cannot be read by this user" : "does not exist")}; {what} is needed";
        }
    }

    /// <summary>The first line of a file.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static string FirstLine(string path) => File.ReadLines(path, Encoding.UTF8).FirstOrDefault()?.TrimEnd('\r') ?? "";
}
