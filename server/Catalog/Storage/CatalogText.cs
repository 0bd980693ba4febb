using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>A whole catalogue as text: the form of the published copy and of backups.</summary>
/// <remarks>UTF-8, lines end in a line feed: <see cref="CatalogHeader"/>; a <see cref="GradeRecord"/> a grade, a
/// <see cref="PriceListRecord"/> a price list, an <see cref="AccessKeyRecord"/> a key, each in order of id; in a backup a
/// <see cref="JournalRecord"/> an entry of the journal, in order of revision; then {"sha256":"..."}, the SHA-256 of all bytes
/// before that line.</remarks>
internal static class CatalogText
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Writes a catalogue.</summary>
    /// <param name="stream">Where; it is left open, and not flushed to disk.</param>
    /// <param name="catalog">The catalogue.</param>
    internal static CatalogSeal Write(Stream stream, CatalogSnapshot catalog) =>
        Write(stream, CatalogHeader.LineOf(catalog), catalog, []);

    /// <summary>Writes a catalogue and its journal.</summary>
    /// <param name="stream">Where; it is left open, and not flushed to disk.</param>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="journal">All entries up to its revision, in order.</param>
    internal static CatalogSeal Write(Stream stream, CatalogSnapshot catalog, IEnumerable<JournalEntry> journal) => Write(
        stream,
        CatalogHeader.LineOf(catalog, checked((int)(catalog.Revision - catalog.Journal.After))),
        catalog,
        journal.Select(JournalRecord.LineOf));

    /// <summary>A line in UTF-8, with its line feed.</summary>
    internal static byte[] LineOf(string line) => Utf8.GetBytes(line + "\n");

    /// <summary>Reads a catalogue.</summary>
    /// <param name="stream">From its start; it can be read twice.</param>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    internal static (CatalogSnapshot Catalog, IReadOnlyList<JournalEntry> Journal) Read(Stream stream)
    {
        RequireSealed(stream);
        using var reader = new StreamReader(stream, Utf8, leaveOpen: true);
        CatalogHeader header = CatalogHeader.Parse(reader.ReadLine());
        var lines = new StoredLines(header);
        foreach (EntryKind kind in Enum.GetValues<EntryKind>())
        {
            for (int i = 0; i < lines.CountOf(kind); i++)
            {
                lines.Add(kind, NextLine(reader));
            }
        }

        return (lines.Catalog(), ReadJournal(reader, header));
    }

    /// <summary>The seal of a catalogue, after checking that it holds; nothing else is kept.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    internal static CatalogSeal ReadSeal(Stream stream)
    {
        string sha256 = RequireSealed(stream);
        using var lines = new StreamReader(stream, Utf8, leaveOpen: true);
        string? header = lines.ReadLine();
        CatalogHeader.Parse(header);
        return new CatalogSeal(header!, sha256);
    }

    private static CatalogSeal Write(Stream stream, string header, CatalogSnapshot catalog, IEnumerable<string> journal)
    {
        using var builder = new SealBuilder(header);
        stream.Write(LineOf(header));
        foreach (ReadOnlyMemory<byte> lines in StoredEntry.TextOf(catalog).Concat(journal.Select(line => new ReadOnlyMemory<byte>(LineOf(line)))))
        {
            builder.Add(lines.Span);
            stream.Write(lines.Span);
        }

        CatalogSeal seal = builder.Seal();
        stream.Write(Utf8.GetBytes(seal.Trailer));
        return seal;
    }

    private static List<JournalEntry> ReadJournal(StreamReader reader, CatalogHeader header)
    {
        var journal = new List<JournalEntry>();
        JournalHead head = JournalHead.From(header.JournalHead.After, header.JournalHead.AfterWritten);
        for (long revision = head.After + 1; revision <= head.After + (header.Entries ?? 0); revision++)
        {
            string line = NextLine(reader);
            head = head.With(line);
            journal.Add(JournalRecord.Parse(line));
            if (journal[^1].Revision != revision)
            {
                throw new NotWholeException("its journal has a gap");
            }
        }

        return header.Entries is null || head == header.JournalHead
            ? journal
            : throw new NotWholeException("its journal is not that of its revision");
    }

    private static string NextLine(StreamReader reader) =>
        reader.ReadLine() ?? throw new NotWholeException("it has fewer lines than it says");

    // Checks all bytes before any is given a meaning, and goes back to the first.
    private static string RequireSealed(Stream stream)
    {
        int trailerLength = new CatalogSeal(string.Empty, new string('0', 64)).Trailer.Length;
        if (stream.Length <= trailerLength)
        {
            throw new NotWholeException(stream.Length == 0 ? "it is empty" : "it has been cut short");
        }

        string sha256 = Convert.ToHexStringLower(HashOfFirst(stream, stream.Length - trailerLength));
        byte[] trailer = new byte[trailerLength];
        stream.ReadExactly(trailer);
        if (!trailer.AsSpan().SequenceEqual(Encoding.ASCII.GetBytes(new CatalogSeal(string.Empty, sha256).Trailer)))
        {
            throw new NotWholeException("its text does not match its checksum");
        }

        stream.Position = 0;
        return sha256;
    }

    private static byte[] HashOfFirst(Stream stream, long length)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[1 << 16];
        while (length > 0)
        {
            int read = stream.Read(buffer, 0, (int)Math.Min(buffer.Length, length));
            if (read == 0)
            {
                throw new NotWholeException("it has been cut short");
            }

            hash.AppendData(buffer, 0, read);
            length -= read;
        }

        return hash.GetHashAndReset();
    }
}
