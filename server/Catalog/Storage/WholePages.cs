namespace CableCatalog.Catalog.Storage;

/// <summary>A file as far as it has whole pages, to be read only.</summary>
/// <remarks>A checkpoint that was cut off while the file grew leaves part of a page at its end; the log then still has all of
/// it.</remarks>
internal sealed class WholePages(FileStream file, int pageBytes) : Stream
{
    /// <inheritdoc/>
    public override long Length { get; } = file.Length / pageBytes * pageBytes;

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => true;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Position
    {
        get => file.Position;
        set => file.Position = value;
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) =>
        file.Read(buffer, offset, (int)Math.Clamp(Length - Position, 0, count));

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => Position = offset + origin switch
    {
        SeekOrigin.Begin => 0,
        SeekOrigin.Current => Position,
        _ => Length,
    };

    /// <inheritdoc/>
    public override void Flush()
    {
    }

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
