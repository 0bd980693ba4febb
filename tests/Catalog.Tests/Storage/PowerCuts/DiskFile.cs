namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>A file of the model, under whatever name: what of it is on disk, and what is on its way there.</summary>
internal sealed class DiskFile(byte[] onDisk)
{
    /// <summary>What tears: a disk writes so many bytes whole or not at all.</summary>
    private const int PageBytes = 4096;

    private readonly List<Change> _pending = [];
    private byte[] _onDisk = onDisk;

    /// <summary>Whether bytes were written that are not on disk.</summary>
    internal bool HasPendingWrites => _pending.Any(change => change.Bytes is not null);

    /// <summary>Whether a power cut may leave more than one content.</summary>
    internal bool IsPending => _pending.Count > 0;

    internal void Write(long offset, byte[] bytes) => _pending.Add(new Change(offset, bytes));

    internal void Truncate(long length)
    {
        // Every file that is opened to be written anew is also cut to nothing, most of them empty.
        if (length != After(_ => true).Length)
        {
            _pending.Add(new Change(length, null));
        }
    }

    internal void Flush()
    {
        _onDisk = After(_ => true);
        _pending.Clear();
    }

    /// <summary>What a power cut leaves where nothing pending comes to be on disk.</summary>
    internal byte[] Dropped() => After(_ => false);

    /// <summary>What a power cut leaves where all of it does.</summary>
    internal byte[] Kept() => After(_ => true);

    /// <summary>What a power cut may leave: any of the changes and, of one that is written in part, any pages; the file may
    /// have grown even where the bytes have not come.</summary>
    internal byte[] Torn(Random random)
    {
        double share = random.NextDouble();
        bool grows = random.Next(2) == 0;
        bool whole = random.Next(3) == 0;
        return After(_ => random.NextDouble() < share, whole ? null : _ => random.NextDouble() < share, grows);
    }

    private byte[] After(Func<Change, bool> kept, Func<long, bool>? pageKept = null, bool grows = false)
    {
        var content = new MemoryStream();
        content.Write(_onDisk);
        foreach (Change change in _pending)
        {
            if (change.Bytes is null)
            {
                if (kept(change))
                {
                    content.SetLength(change.At);
                }
            }
            else if (pageKept is not null)
            {
                WritePages(content, change.At, change.Bytes, pageKept, grows);
            }
            else if (kept(change))
            {
                content.Position = change.At;
                content.Write(change.Bytes);
            }
        }

        return content.ToArray();
    }

    private static void WritePages(MemoryStream content, long at, byte[] bytes, Func<long, bool> pageKept, bool grows)
    {
        long end = at + bytes.Length;
        for (long from = at; from < end;)
        {
            long to = Math.Min(((from / PageBytes) + 1) * PageBytes, end);
            if (pageKept(from))
            {
                content.Position = from;
                content.Write(bytes.AsSpan((int)(from - at), (int)(to - from)));
            }
            else if (grows && content.Length < to)
            {
                content.SetLength(to);
            }

            from = to;
        }
    }

    // Without bytes: a cut to a length.
    private sealed record Change(long At, byte[]? Bytes);
}
