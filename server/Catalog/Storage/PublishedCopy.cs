using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.Storage;

/// <summary>The published copy: a text file that is replaced as a whole after every write. Readers open nothing else.</summary>
/// <remarks>UTF-8, lines end in a line feed: <see cref="CatalogHeader"/>; a <see cref="GradeRecord"/> a grade, in order of
/// id; a <see cref="PriceListRecord"/> a price list, in order of id; then {"sha256":"..."}, the SHA-256 of all bytes before that line. It is renamed into place when it is on disk, so a
/// reader finds a whole revision or the whole one before it.</remarks>
internal static class PublishedCopy
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads it all.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSnapshot Read(string path)
    {
        using FileStream file = OpenToRead(path);
        RequireSealed(file);
        using var lines = new StreamReader(file, Utf8);
        CatalogHeader header = CatalogHeader.Parse(lines.ReadLine());
        var grades = new List<CatalogGrade>();
        for (int i = 0; i < header.Count; i++)
        {
            grades.Add(GradeRecord.Parse(lines.ReadLine() ?? throw new NotWholeException("it has fewer grades than it says")));
        }

        var lists = new List<CatalogPriceList>();
        for (int i = 0; i < header.PriceLists; i++)
        {
            lists.Add(PriceListRecord.Parse(
                lines.ReadLine() ?? throw new NotWholeException("it has fewer price lists than it says")));
        }

        return CatalogSnapshot.Of(header.Revision, grades, lists);
    }

    /// <summary>Its seal, after checking that it holds; the grades are not kept.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSeal ReadSeal(string path)
    {
        using FileStream file = OpenToRead(path);
        string sha256 = RequireSealed(file);
        using var lines = new StreamReader(file, Utf8);
        string? header = lines.ReadLine();
        CatalogHeader.Parse(header);
        return new CatalogSeal(header!, sha256);
    }

    /// <summary>Writes the draft of the next copy and waits until it is on disk.</summary>
    internal static CatalogSeal WriteDraft(CatalogFiles files, CatalogSnapshot catalog)
    {
        string header = CatalogHeader.LineOf(catalog);
        using var builder = new SealBuilder(header);
        using var file = new FileStream(files.Draft, FileMode.Create, FileAccess.Write, FileShare.Read, 1 << 16);
        using (var writer = new StreamWriter(file, Utf8, leaveOpen: true) { NewLine = "\n" })
        {
            writer.WriteLine(header);
            IEnumerable<string> stored = catalog.Grades.Select(GradeRecord.LineOf)
                .Concat(catalog.PriceLists.Select(PriceListRecord.LineOf));
            foreach (string line in stored)
            {
                builder.Add(line);
                writer.WriteLine(line);
            }

            writer.Write(builder.Seal().Trailer);
        }

        file.Flush(flushToDisk: true);
        return builder.Seal();
    }

    /// <summary>Puts the draft in the place of the copy.</summary>
    internal static void PublishDraft(CatalogFiles files)
    {
        File.Move(files.Draft, files.Published, overwrite: true);
        Folder.Flush(files.Folder);
    }

    private static FileStream OpenToRead(string path) =>
        new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16, FileOptions.SequentialScan);

    // Checks all bytes before any is given a meaning, and goes back to the first.
    private static string RequireSealed(FileStream file)
    {
        int trailerLength = new CatalogSeal(string.Empty, new string('0', 64)).Trailer.Length;
        if (file.Length <= trailerLength)
        {
            throw new NotWholeException(file.Length == 0 ? "it is empty" : "it has been cut short");
        }

        string sha256 = Convert.ToHexStringLower(HashOfFirst(file, file.Length - trailerLength));
        byte[] trailer = new byte[trailerLength];
        file.ReadExactly(trailer);
        if (!trailer.AsSpan().SequenceEqual(Encoding.ASCII.GetBytes(new CatalogSeal(string.Empty, sha256).Trailer)))
        {
            throw new NotWholeException("its text does not match its checksum");
        }

        file.Position = 0;
        return sha256;
    }

    private static byte[] HashOfFirst(FileStream file, long length)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[1 << 16];
        while (length > 0)
        {
            int read = file.Read(buffer, 0, (int)Math.Min(buffer.Length, length));
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
