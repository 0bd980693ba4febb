using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CableCatalog.Catalog.Storage;

/// <summary>Waits until a file is on disk, and says where it does not come there.</summary>
/// <remarks>.NET 10.0.12 does not say: its flush to disk ignores an fsync that failed with EIO (seen with faults injected by strace).
/// </remarks>
internal static class Disk
{
    private const int Interrupted = 4;
    private const int InvalidArgument = 22;
    private const int ReadOnly = 30;
    private const int NotSupported = 95;

    /// <summary>Hands what is buffered to the operating system, and waits until all of the file is on disk.</summary>
    /// <exception cref="IOException">The disk refused.</exception>
    internal static void Flush(FileStream file)
    {
        file.Flush();
        Flush(file.SafeFileHandle);
    }

    /// <summary>Waits until all of a file is on disk that the operating system was handed. Where the file system cannot, it does
    /// nothing.</summary>
    /// <exception cref="IOException">The disk refused.</exception>
    internal static void Flush(SafeFileHandle file)
    {
        if (!OperatingSystem.IsLinux())
        {
            RandomAccess.FlushToDisk(file);
            return;
        }

        while (FSync(file) < 0)
        {
            int error = Marshal.GetLastPInvokeError();
            switch (error)
            {
                case Interrupted:
                    continue;
                case InvalidArgument or ReadOnly or NotSupported:
                    return;
                default:
                    throw new IOException(Marshal.GetPInvokeErrorMessage(error));
            }
        }
    }

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int FSync(SafeFileHandle file);
}
