using System.Text.Json;
using System.Text.Json.Serialization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>What the first line of a stored catalogue says, and the line that seals it.</summary>
/// <param name="Format">Always <see cref="CatalogHeader.FormatName"/>.</param>
/// <param name="Schema">The version of the lines that follow.</param>
/// <param name="Revision">The catalogue's revision.</param>
/// <param name="Count">How many grades follow.</param>
/// <param name="PriceLists">How many price lists follow them; left out where there are none.</param>
/// <param name="AccessKeys">How many keys follow those; left out where there are none.</param>
/// <param name="Written">When the revision was written; schema 3 and later.</param>
/// <param name="Journal">How far the journal reaches; schema 3 and later.</param>
/// <param name="Entries">How many entries of the journal follow; in the first line of a backup only.</param>
/// <param name="Sum">The <see cref="LineSum"/> of all that the catalogue holds; in the line that seals it only, schema 4 and later.</param>
internal sealed record CatalogHeader(
    string Format,
    int Schema,
    long Revision,
    int Count,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] int PriceLists = 0,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] int AccessKeys = 0,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] DateTimeOffset? Written = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] JournalHead? Journal = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? Entries = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Sum = null)
{
    internal const string FormatName = "cablecatalog snapshot";

    // 1: grades; 2: price lists; 3: keys and the journal; 4: the sum, and revisions added to a published copy.
    internal const int SchemaKnown = 4;

    // What is in a database or a backup is as it was before there was a sum: programs before and after that can use it. A schema of theirs
    // that has more begins after the last of files.
    private const int SchemaWithoutSum = 3;

    /// <summary>The first schema that is sealed by a sum of lines, and not by one checksum over all of them in order.</summary>
    internal const int FirstWithSum = 4;

    /// <summary>When the revision was written, as far as that is known.</summary>
    [JsonIgnore]
    internal DateTimeOffset WrittenAt => Written ?? DateTimeOffset.MinValue;

    /// <summary>The journal; one that begins here where an older schema had none.</summary>
    [JsonIgnore]
    internal JournalHead JournalHead => Journal ?? JournalHead.From(Revision, WrittenAt);

    /// <summary>The header line of a catalogue in a file.</summary>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="sum">The sum of what it holds; null: it is not said.</param>
    internal static string LineOf(CatalogSnapshot catalog, LineSum? sum = null) => Line(Of(catalog) with { Sum = sum?.ToString() });

    /// <summary>The header line of a catalogue in a database.</summary>
    internal static string LineInDatabase(CatalogSnapshot catalog) => Line(Of(catalog) with { Schema = SchemaWithoutSum });

    /// <summary>The header line of a backup.</summary>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="entries">How many entries of its journal are to follow.</param>
    internal static string LineInBackup(CatalogSnapshot catalog, int entries) =>
        Line(Of(catalog) with { Schema = SchemaWithoutSum, Entries = entries });

    /// <summary>The line of a header.</summary>
    internal static string Line(CatalogHeader header) => JsonSerializer.Serialize(header, StorageJson.Default.CatalogHeader);

    /// <summary>Reads a header line.</summary>
    /// <exception cref="NotWholeException">It is none, or of a schema this program does not know.</exception>
    internal static CatalogHeader Parse(string? line)
    {
        const string NoHeader = "it does not say what catalogue it is";
        try
        {
            CatalogHeader? header = line is null ? null : JsonSerializer.Deserialize(line, StorageJson.Default.CatalogHeader);
            if (header is not { Format: FormatName, Schema: > 0, Revision: >= 0, Count: >= 0, PriceLists: >= 0, AccessKeys: >= 0 }
                || header.JournalHead.After > header.Revision)
            {
                throw new NotWholeException(NoHeader);
            }

            return header.Schema <= SchemaKnown ? header : throw Newer(header.Schema, null);
        }
        catch (JsonException cause)
        {
            throw NewerSchemaOf(line) is { } schema ? Newer(schema, cause) : new NotWholeException(NoHeader, cause);
        }
    }

    private static NotWholeException Newer(int schema, Exception? cause) => new(
        $"it was written by a newer version of this program (schema {schema}; this version knows {SchemaKnown})", cause)
    {
        IsNewer = true,
    };

    // A newer schema may say more than this program knows.
    private static int? NewerSchemaOf(string? line)
    {
        try
        {
            using JsonDocument said = JsonDocument.Parse(line ?? string.Empty);
            return said.RootElement.ValueKind == JsonValueKind.Object
                && said.RootElement.TryGetProperty("format", out JsonElement format) && format.ValueEquals(FormatName)
                && said.RootElement.TryGetProperty("schema", out JsonElement schema) && schema.TryGetInt32(out int number)
                && number > SchemaKnown
                    ? number
                    : null;
        }
        catch (Exception cause) when (cause is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static CatalogHeader Of(CatalogSnapshot catalog) => new(
        FormatName,
        SchemaKnown,
        catalog.Revision,
        catalog.Count,
        catalog.PriceLists.Count(),
        catalog.AccessKeys.Count(),
        catalog.Written,
        catalog.Journal);
}

/// <summary>What a stored catalogue is checked against.</summary>
/// <remarks>Over everything, and not one a grade: a mixture of two revisions is made of whole grades.</remarks>
/// <param name="Header">Its header line; since schema 4 with the <see cref="LineSum"/> of the lines of every grade, price list and
/// key.</param>
/// <param name="Sha256">Up to schema 3 the SHA-256 of the header line and of those lines in order of id, each with its line feed: 64
/// lower-case hexadecimal digits. Null since.</param>
internal sealed record CatalogSeal(string Header, string? Sha256)
{
    /// <summary>The seal of a catalogue.</summary>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="sum">The sum of the lines of all that it holds.</param>
    internal static CatalogSeal Of(CatalogSnapshot catalog, LineSum sum) => new(CatalogHeader.LineOf(catalog, sum), null);

    /// <summary>A seal of which the checksum stands beside the header: so a program before schema 4 sees that it is newer.</summary>
    /// <exception cref="NotWholeException">It is none.</exception>
    internal static CatalogSeal Read(string header, string checksum) =>
        CatalogHeader.Parse(header) is { Schema: >= CatalogHeader.FirstWithSum } parsed
            ? new CatalogSeal(CatalogHeader.Line(parsed with { Sum = checksum }), null)
            : new CatalogSeal(header, checksum);

    /// <summary>The header line without a sum.</summary>
    internal string HeaderAlone => Sha256 is null ? CatalogHeader.Line(CatalogHeader.Parse(Header) with { Sum = null }) : Header;

    /// <summary>The sum, or the SHA-256.</summary>
    internal string? Checksum => Sha256 ?? Sum?.ToString();

    /// <summary>The sum of the lines; null up to schema 3.</summary>
    internal LineSum? Sum => LineSum.Parse(CatalogHeader.Parse(Header).Sum);
}
