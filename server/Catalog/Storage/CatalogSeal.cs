using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>What the first line of a stored catalogue says.</summary>
/// <param name="Format">Always <see cref="CatalogHeader.FormatName"/>.</param>
/// <param name="Schema">The version of the lines that follow.</param>
/// <param name="Revision">The catalogue's revision.</param>
/// <param name="Count">How many grades follow.</param>
/// <param name="PriceLists">How many price lists follow them; left out where there are none.</param>
/// <param name="AccessKeys">How many keys follow those; left out where there are none.</param>
/// <param name="Written">When the revision was written; schema 3 and later.</param>
/// <param name="Journal">How far the journal reaches; schema 3 and later.</param>
/// <param name="Entries">How many entries of the journal follow; in a backup only.</param>
internal sealed record CatalogHeader(
    string Format,
    int Schema,
    long Revision,
    int Count,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] int PriceLists = 0,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] int AccessKeys = 0,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] DateTimeOffset? Written = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] JournalHead? Journal = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? Entries = null)
{
    internal const string FormatName = "cablecatalog snapshot";

    // 1: grades; 2: price lists; 3: keys and the journal.
    internal const int SchemaKnown = 3;

    /// <summary>When the revision was written, as far as that is known.</summary>
    [JsonIgnore]
    internal DateTimeOffset WrittenAt => Written ?? DateTimeOffset.MinValue;

    /// <summary>The journal; one that begins here where an older schema had none.</summary>
    [JsonIgnore]
    internal JournalHead JournalHead => Journal ?? JournalHead.From(Revision, WrittenAt);

    /// <summary>The header line of a catalogue.</summary>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="entries">How many entries of its journal are to follow; null: none, and it is not said.</param>
    internal static string LineOf(CatalogSnapshot catalog, int? entries = null) => JsonSerializer.Serialize(
        new CatalogHeader(
            FormatName,
            SchemaKnown,
            catalog.Revision,
            catalog.Count,
            catalog.PriceLists.Count(),
            catalog.AccessKeys.Count(),
            catalog.Written,
            catalog.Journal,
            entries),
        StorageJson.Default.CatalogHeader);

    /// <summary>Reads a header line.</summary>
    /// <exception cref="NotWholeException">It is none, or of a schema this program does not know.</exception>
    internal static CatalogHeader Parse(string? line)
    {
        const string NoHeader = "it does not begin like a catalogue";
        try
        {
            CatalogHeader? header = line is null ? null : JsonSerializer.Deserialize(line, StorageJson.Default.CatalogHeader);
            if (header is not { Format: FormatName, Schema: > 0, Revision: >= 0, Count: >= 0, PriceLists: >= 0, AccessKeys: >= 0 }
                || header.JournalHead.After > header.Revision)
            {
                throw new NotWholeException(NoHeader);
            }

            return header.Schema <= SchemaKnown ? header : throw new NotWholeException(
                $"it was written by a newer version of this program (schema {header.Schema}; this version knows {SchemaKnown})")
            {
                IsNewer = true,
            };
        }
        catch (JsonException cause)
        {
            throw new NotWholeException(NoHeader, cause);
        }
    }
}

/// <summary>What a stored catalogue is checked against: its header line, and the SHA-256 of that line and of the lines of
/// every grade, price list and key in order of id, each with its line feed.</summary>
/// <remarks>One checksum over everything, and not one a grade: a mixture of two revisions is made of whole grades.</remarks>
/// <param name="Header">The header line.</param>
/// <param name="Sha256">64 lower-case hexadecimal digits.</param>
internal sealed record CatalogSeal(string Header, string Sha256)
{
    /// <summary>The last line of a published copy.</summary>
    internal string Trailer => $$"""{"sha256":"{{Sha256}}"}""" + "\n";
}

/// <summary>Computes a <see cref="CatalogSeal"/> line by line.</summary>
internal sealed class SealBuilder(string header) : IDisposable
{
    private readonly IncrementalHash _hash = Begin(header);

    /// <summary>Adds the line of something that the catalogue holds.</summary>
    internal void Add(string line) => Append(_hash, line);

    /// <summary>Adds lines in UTF-8, each with its line feed.</summary>
    internal void Add(ReadOnlySpan<byte> lines) => _hash.AppendData(lines);

    /// <summary>The seal of all lines added.</summary>
    internal CatalogSeal Seal() => new(header, Convert.ToHexStringLower(_hash.GetCurrentHash()));

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private static IncrementalHash Begin(string header)
    {
        var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Append(hash, header);
        return hash;
    }

    private static void Append(IncrementalHash hash, string line)
    {
        hash.AppendData(Encoding.UTF8.GetBytes(line));
        hash.AppendData("\n"u8);
    }
}
