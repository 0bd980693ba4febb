using System.Security.Cryptography;
using System.Text;

namespace CableCatalog.Catalog.Storage;

/// <summary>A text whose last line is the SHA-256 of all bytes before it. It can be gone on with: what is added ends with such a line
/// too.</summary>
internal sealed class SealedText : IDisposable
{
    private static readonly int TrailerBytes = TrailerOf(new string('0', 64)).Length;

    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>How long it is, bytes.</summary>
    internal long Bytes { get; private set; }

    /// <summary>Writes lines.</summary>
    internal void Write(Stream to, ReadOnlySpan<byte> lines)
    {
        to.Write(lines);
        Add(lines);
    }

    /// <summary>Writes the line that ends it.</summary>
    internal void End(Stream to) => Write(to, TrailerOf(Convert.ToHexStringLower(_hash.GetCurrentHash())));

    /// <summary>Checks all bytes of a text before any is given a meaning.</summary>
    /// <param name="stream">From its start.</param>
    /// <param name="lengthBytes">How much of it is the text.</param>
    /// <returns>The text, to go on with.</returns>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    internal static SealedText Check(Stream stream, long lengthBytes)
    {
        if (lengthBytes <= TrailerBytes)
        {
            throw new NotWholeException(lengthBytes == 0 ? "it is empty" : "it has been cut short");
        }

        var text = new SealedText();
        try
        {
            text.Read(stream, lengthBytes - TrailerBytes);
            byte[] right = TrailerOf(Convert.ToHexStringLower(text._hash.GetCurrentHash()));
            byte[] trailer = new byte[TrailerBytes];
            if (stream.ReadAtLeast(trailer, TrailerBytes, throwOnEndOfStream: false) < TrailerBytes
                || !trailer.AsSpan().SequenceEqual(right))
            {
                throw new NotWholeException("its text does not match its checksum");
            }

            text.Add(trailer);
            return text;
        }
        catch
        {
            text.Dispose();
            throw;
        }
    }

    /// <summary>The last line but one of a text that was checked; what ends a text is the last.</summary>
    /// <param name="stream">The text.</param>
    /// <param name="lengthBytes">How much of it is the text.</param>
    internal static string LastLineOf(Stream stream, long lengthBytes)
    {
        // More than any line that seals a catalogue.
        const int MostBytes = 4096;
        long endsAt = lengthBytes - TrailerBytes;
        byte[] last = new byte[Math.Min(MostBytes, endsAt)];
        stream.Position = endsAt - last.Length;
        stream.ReadExactly(last);
        ReadOnlySpan<byte> line = last.AsSpan()[..^1];
        return Encoding.UTF8.GetString(line[(line.LastIndexOf((byte)'\n') + 1)..]);
    }

    /// <summary>The SHA-256 in the last line of a text that was checked.</summary>
    /// <param name="stream">The text.</param>
    /// <param name="lengthBytes">How much of it is the text.</param>
    internal static string Sha256Of(Stream stream, long lengthBytes)
    {
        byte[] trailer = new byte[TrailerBytes];
        stream.Position = lengthBytes - TrailerBytes;
        stream.ReadExactly(trailer);
        return Encoding.ASCII.GetString(trailer).Split('"')[3];
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private static byte[] TrailerOf(string sha256) => Encoding.ASCII.GetBytes($$"""{"sha256":"{{sha256}}"}""" + "\n");

    private void Add(ReadOnlySpan<byte> bytes)
    {
        _hash.AppendData(bytes);
        Bytes += bytes.Length;
    }

    private void Read(Stream stream, long lengthBytes)
    {
        byte[] buffer = new byte[1 << 16];
        while (lengthBytes > 0)
        {
            int read = stream.Read(buffer, 0, (int)Math.Min(buffer.Length, lengthBytes));
            if (read == 0)
            {
                throw new NotWholeException("it has been cut short");
            }

            Add(buffer.AsSpan(0, read));
            lengthBytes -= read;
        }
    }
}
