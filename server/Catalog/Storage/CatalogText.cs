using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>A whole catalogue as text: the form of the published copy and of backups.</summary>
/// <remarks>
/// <para>UTF-8, lines end in a line feed: <see cref="CatalogHeader"/>; a <see cref="GradeRecord"/> a grade, a
/// <see cref="PriceListRecord"/> a price list, an <see cref="AccessKeyRecord"/> a key, each in order of id; in a backup a
/// <see cref="JournalRecord"/> an entry of the journal, in order of revision, and in a published copy the header once more, with the
/// <see cref="LineSum"/> of the grades, price lists and keys; then {"sha256":"..."}, the SHA-256 of all bytes before that line.</para>
/// <para>In a published copy there may follow, for every revision since, the entry of the journal that makes it, its header with its sum,
/// and the SHA-256 of all bytes before.</para>
/// <para>Up to schema 3, which backups still are of, there is no line with a sum, and nothing follows.</para>
/// </remarks>
internal static class CatalogText
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Writes a catalogue.</summary>
    /// <param name="stream">Where; it is left open, and not flushed to disk.</param>
    /// <param name="catalog">The catalogue.</param>
    internal static (CatalogSeal Seal, SealedText Text) Write(Stream stream, CatalogSnapshot catalog)
    {
        var seal = CatalogSeal.Of(catalog, StoredEntry.SumOf(catalog));
        return (seal, Write(stream, CatalogHeader.LineOf(catalog), catalog, [seal.Header]));
    }

    /// <summary>Writes a catalogue and its journal.</summary>
    /// <param name="stream">Where; it is left open, and not flushed to disk.</param>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="journal">All entries up to its revision, in order.</param>
    internal static void Write(Stream stream, CatalogSnapshot catalog, IEnumerable<JournalEntry> journal) => Write(
        stream,
        CatalogHeader.LineInBackup(catalog, checked((int)(catalog.Revision - catalog.Journal.After))),
        catalog,
        journal.Select(JournalRecord.LineOf)).Dispose();

    /// <summary>Writes what brings a text to its next revision.</summary>
    /// <param name="stream">Where; it is left open, and not flushed to disk.</param>
    /// <param name="text">The text.</param>
    /// <param name="entry">The line of what makes the revision.</param>
    /// <param name="seal">The seal of the revision.</param>
    internal static void WriteNext(Stream stream, SealedText text, string entry, CatalogSeal seal)
    {
        text.Write(stream, LineOf(entry));
        text.Write(stream, LineOf(seal.Header));
        text.End(stream);
    }

    /// <summary>A line in UTF-8, with its line feed.</summary>
    internal static byte[] LineOf(string line) => Utf8.GetBytes(line + "\n");

    /// <summary>Reads a catalogue.</summary>
    /// <param name="stream">From its start; it can be read twice, and may grow meanwhile.</param>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    internal static (CatalogSnapshot Catalog, IReadOnlyList<JournalEntry> Journal) Read(Stream stream)
    {
        (CatalogSeal seal, SealedText text) = ReadSeal(stream);
        text.Dispose();
        stream.Position = 0;
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

        List<JournalEntry> journal = ReadJournal(reader, header);
        return (ReadOn(reader, lines.Catalog(), seal), journal);
    }

    /// <summary>The seal of a catalogue, after checking that the text holds; nothing else is kept.</summary>
    /// <param name="stream">From its start; it may grow meanwhile.</param>
    /// <returns>The seal, and the text to go on with.</returns>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    internal static (CatalogSeal Seal, SealedText Text) ReadSeal(Stream stream)
    {
        long lengthBytes = stream.Length;
        SealedText text = SealedText.Check(stream, lengthBytes);
        try
        {
            stream.Position = 0;
            using var lines = new StreamReader(stream, Utf8, leaveOpen: true);
            string? header = lines.ReadLine();
            if (CatalogHeader.Parse(header).Schema < CatalogHeader.FirstWithSum)
            {
                return (new CatalogSeal(header!, SealedText.Sha256Of(stream, lengthBytes)), text);
            }

            var seal = new CatalogSeal(SealedText.LastLineOf(stream, lengthBytes), null);
            return seal.Sum is null ? throw new NotWholeException("it does not end like a catalogue") : (seal, text);
        }
        catch
        {
            text.Dispose();
            throw;
        }
    }

    private static SealedText Write(Stream stream, string header, CatalogSnapshot catalog, IEnumerable<string> after)
    {
        var text = new SealedText();
        text.Write(stream, LineOf(header));
        foreach (ReadOnlyMemory<byte> lines in StoredEntry.TextOf(catalog))
        {
            text.Write(stream, lines.Span);
        }

        foreach (string line in after)
        {
            text.Write(stream, LineOf(line));
        }

        text.End(stream);
        return text;
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

    // The revisions that were added to the text.
    private static CatalogSnapshot ReadOn(StreamReader reader, CatalogSnapshot catalog, CatalogSeal seal)
    {
        const string NotThatRevision = "what was added to it does not make the revision that it ends with";
        for (long last = CatalogHeader.Parse(seal.Header).Revision; catalog.Revision < last;)
        {
            // The line that seals what there is, and the checksum after it.
            NextLine(reader);
            NextLine(reader);
            string line = NextLine(reader);
            JournalEntry entry = JournalRecord.Parse(line);
            catalog = entry.Revision == catalog.Revision + 1
                ? catalog.With(entry, line)
                : throw new NotWholeException(NotThatRevision);
        }

        return seal.Sum is null || seal == CatalogSeal.Of(catalog, seal.Sum.Value) ? catalog : throw new NotWholeException(NotThatRevision);
    }

    private static string NextLine(StreamReader reader) =>
        reader.ReadLine() ?? throw new NotWholeException("it has fewer lines than it says");
}
