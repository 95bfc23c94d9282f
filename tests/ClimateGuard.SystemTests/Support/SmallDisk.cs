using System.Diagnostics;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A disk in memory that can be filled. Only root can mount one: elsewhere the test is skipped, unless CLIMATEGUARD_REQUIRE_TOOLS=1.</summary>
public sealed class SmallDisk : IDisposable
{
    private readonly string mount = Directory.CreateTempSubdirectory("climateguard-disk-").FullName;

    private SmallDisk()
    {
    }

    /// <summary>A folder on it; it may be removed, which the disk itself may not.</summary>
    public string Store => Directory.CreateDirectory(Path.Combine(mount, "store")).FullName;

    public static SmallDisk Mount(string size)
    {
        var disk = new SmallDisk();
        if (!OperatingSystem.IsLinux() || Run("mount", "-t", "tmpfs", "-o", $"size={size}", "none", disk.mount) != 0)
        {
            const string reason = "a small disk cannot be mounted here (needs Linux and root), so nothing is known about a full disk";
            Assert.False(Environment.GetEnvironmentVariable("CLIMATEGUARD_REQUIRE_TOOLS") == "1", reason);
            Assert.Skip(reason);
        }

        return disk;
    }

    public void Dispose()
    {
        Run("umount", mount);
        Directory.Delete(mount, recursive: true);
    }

    private static int Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode;
    }
}
