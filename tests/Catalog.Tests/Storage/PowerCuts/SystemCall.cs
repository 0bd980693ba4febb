namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>A system call that succeeded and that the disk, or somebody who waits for an answer, can notice.</summary>
internal abstract record SystemCall
{
    /// <summary>A file or a folder was opened, and made where it was not there and <paramref name="Creates"/>.</summary>
    internal sealed record Open(string Path, int Descriptor, bool Creates, bool Empties) : SystemCall;

    /// <summary>A descriptor was closed.</summary>
    internal sealed record Close(int Descriptor) : SystemCall;

    /// <summary>Bytes were handed to the operating system.</summary>
    internal sealed record Write(int Descriptor, string Path, long Offset, byte[] Bytes) : SystemCall
    {
        public override string ToString() => $"write {Path} {Offset}+{Bytes.Length}";
    }

    /// <summary>A file was cut or lengthened.</summary>
    internal sealed record Truncate(int Descriptor, string Path, long Length) : SystemCall;

    /// <summary>A file or a folder was brought to disk.</summary>
    internal sealed record Flush(int Descriptor, string Path) : SystemCall;

    /// <summary>A file took another's place.</summary>
    internal sealed record Rename(string From, string To) : SystemCall;

    /// <summary>A name was removed.</summary>
    internal sealed record Remove(string Path) : SystemCall;

    /// <summary>A folder was made.</summary>
    internal sealed record MakeFolder(string Path) : SystemCall;

    /// <summary>Somebody was told that a revision is written.</summary>
    internal sealed record Acknowledge(long Revision) : SystemCall;
}
