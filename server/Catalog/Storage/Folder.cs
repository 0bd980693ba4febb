using System.Runtime.InteropServices;
using System.Text;

namespace CableCatalog.Catalog.Storage;

/// <summary>Makes the names in a folder outlive a power cut.</summary>
internal static class Folder
{
    private const int ReadOnlyCloseOnExec = 0x80000;

    /// <summary>Makes a folder, and those above it, where they are not there, and waits until they are on disk.</summary>
    internal static void Make(string path)
    {
        if (Directory.Exists(path))
        {
            return;
        }

        string? above = Path.GetDirectoryName(path);
        if (above is not null)
        {
            Make(above);
        }

        Directory.CreateDirectory(path);
        Flush(above ?? path);
    }

    /// <summary>Waits until renames in the folder are on disk. Linux only; elsewhere, and where the file system cannot, it
    /// does nothing: the catalogue file is then still right, and the published copy is put right from it.</summary>
    internal static void Flush(string path)
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        // .NET opens no folder as a file.
        int descriptor = Open(Encoding.UTF8.GetBytes(path + "\0"), ReadOnlyCloseOnExec);
        if (descriptor >= 0)
        {
            _ = FSync(descriptor);
            _ = Close(descriptor);
        }
    }

    [DllImport("libc", EntryPoint = "open")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open(byte[] path, int flags);

    [DllImport("libc", EntryPoint = "fsync")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int FSync(int descriptor);

    [DllImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int descriptor);
}
