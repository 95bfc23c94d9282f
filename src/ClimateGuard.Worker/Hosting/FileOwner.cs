using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Who owns a file: with an editor that writes a new file, whoever changed it last. Known on Linux only.</summary>
internal static class FileOwner
{
    private const int CurrentFolder = -100; // AT_FDCWD
    private const uint OwnerWanted = 0x8; // STATX_UID

    /// <summary>Such as <c>owner anna</c> or <c>owner 1001</c>; <c>not known</c> where the system does not say.</summary>
    /// <param name="path">The file.</param>
    public static string Of(string path)
    {
        if (!OperatingSystem.IsLinux())
        {
            return "not known";
        }

        try
        {
            // struct statx has one layout on every processor: stx_uid stands at byte 20 (statx(2)).
            var answer = new byte[256];
            if (Statx(CurrentFolder, path, 0, OwnerWanted, answer) != 0)
            {
                return "not known";
            }

            var id = BinaryPrimitives.ReadUInt32LittleEndian(answer.AsSpan(20)).ToString(System.Globalization.CultureInfo.InvariantCulture);
            return $"owner {NameOf(id) ?? id}";
        }
        catch (Exception unknown) when (unknown is EntryPointNotFoundException or DllNotFoundException or IOException or UnauthorizedAccessException)
        {
            return "not known";
        }
    }

    private static string? NameOf(string id) =>
        File.ReadLines("/etc/passwd").Select(line => line.Split(':')).FirstOrDefault(fields => fields.Length > 2 && fields[2] == id)?[0];

    [DllImport("libc", EntryPoint = "statx")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Statx(int folder, [MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags, uint mask, byte[] answer);
}
