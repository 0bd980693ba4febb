using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace CableCatalog.Catalog.Storage;

/// <summary>Who owns the catalogue, as told to people.</summary>
/// <param name="ProcessId">Its process.</param>
/// <param name="Holder">What it is: "serve on port 5000", "command line".</param>
/// <param name="Since">Since when, UTC.</param>
internal sealed record HolderNote(int ProcessId, string Holder, DateTimeOffset Since);

/// <summary>The ownership of a catalogue: a lock file held open alone. It ends with the process, however that ends.</summary>
/// <remarks>LiteDB does not keep two processes out of one file; this does, among programs that ask. On a network share the
/// lock may be without effect.</remarks>
internal sealed class CatalogLock : IDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(25);

    private readonly FileStream _file;
    private readonly string _holderFile;

    private CatalogLock(FileStream file, string holderFile) => (_file, _holderFile) = (file, holderFile);

    /// <summary>Takes the lock, and says by whom it is held.</summary>
    /// <param name="files">The catalogue.</param>
    /// <param name="holder">What this process is, for people who find it held.</param>
    /// <param name="clock">For the time in the note.</param>
    /// <param name="wait">How long to wait for another owner.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="CatalogStoreException">Another process holds it still, or the disk refused.</exception>
    internal static CatalogLock Take(
        CatalogFiles files, string holder, TimeProvider clock, TimeSpan wait, CancellationToken cancellation)
    {
        long start = Stopwatch.GetTimestamp();
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            try
            {
                var file = new FileStream(files.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
                return Announce(
                    new CatalogLock(file, files.Holder), new HolderNote(Environment.ProcessId, holder, clock.GetUtcNow()));
            }
            catch (IOException cause) when (IsHeld(cause))
            {
                if (Stopwatch.GetElapsedTime(start) >= wait)
                {
                    throw Refusal.Busy(files, DescribeHolder(files.Holder), cause);
                }
            }
            catch (Exception cause) when (Refusal.IsOfDisk(cause))
            {
                throw Refusal.ByDisk(files.Lock, cause, Refusal.NothingChanged);
            }

            cancellation.WaitHandle.WaitOne(Pause);
        }
    }

    /// <summary>Gives the catalogue up.</summary>
    public void Dispose()
    {
        try
        {
            File.Delete(_holderFile);
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            // The note is only for people, and the next owner writes its own over it.
        }

        _file.Dispose();
    }

    private static CatalogLock Announce(CatalogLock taken, HolderNote note)
    {
        try
        {
            File.WriteAllText(taken._holderFile, JsonSerializer.Serialize(note, StorageJson.Default.HolderNote));
            return taken;
        }
        catch
        {
            taken._file.Dispose();
            throw;
        }
    }

    // Sharing violation on Windows; EWOULDBLOCK on Linux and on macOS.
    private static bool IsHeld(IOException cause) => cause.HResult is unchecked((int)0x80070020) or 11 or 35;

    private static string DescribeHolder(string path)
    {
        try
        {
            HolderNote? note = JsonSerializer.Deserialize(File.ReadAllText(path), StorageJson.Default.HolderNote);
            return note is null ? "another process" : string.Create(
                CultureInfo.InvariantCulture,
                $"process {note.ProcessId} ({note.Holder}, since {note.Since.UtcDateTime:yyyy-MM-dd HH:mm} UTC)");
        }
        catch (Exception cause) when (cause is JsonException || Refusal.IsOfDisk(cause))
        {
            // It may be being written just now.
            return "another process";
        }
    }
}
