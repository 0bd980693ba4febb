using System.Text.Json;
using CableCatalog.Catalog.Access;

namespace CableCatalog.Catalog.Storage;

/// <summary>A key as it is stored: one line of JSON, as <see cref="GradeRecord"/> is.</summary>
internal sealed record AccessKeyRecord(
    string Id,
    long Revision,
    DateTimeOffset Created,
    DateTimeOffset Updated,
    string DisplayName,
    AccessRole Role,
    string Sha256,
    DateTimeOffset? Expires,
    DateTimeOffset? Revoked)
{
    /// <summary>The line that is stored.</summary>
    internal static string LineOf(CatalogAccessKey stored) =>
        JsonSerializer.Serialize(Of(stored), StorageJson.Default.AccessKeyRecord);

    /// <summary>The record of a key.</summary>
    internal static AccessKeyRecord Of(CatalogAccessKey stored) => new(
        stored.Id,
        stored.Revision,
        stored.Created.ToUniversalTime(),
        stored.Updated.ToUniversalTime(),
        stored.Key.DisplayName,
        stored.Key.Role,
        stored.Key.Sha256,
        stored.Key.Expires?.ToUniversalTime(),
        stored.Key.Revoked?.ToUniversalTime());

    /// <summary>The key of a stored line.</summary>
    /// <exception cref="NotWholeException">It is not such a line.</exception>
    internal static CatalogAccessKey Parse(string line)
    {
        try
        {
            AccessKeyRecord record = JsonSerializer.Deserialize(line, StorageJson.Default.AccessKeyRecord)
                ?? throw new NotWholeException("a key in it has no text");
            return record.ToStored();
        }
        catch (JsonException cause)
        {
            throw new NotWholeException("a key in it does not read as one", cause);
        }
    }

    /// <summary>The key of the record.</summary>
    internal CatalogAccessKey ToStored() =>
        new(new AccessKey(Id, DisplayName, Role, Sha256, Expires, Revoked), Revision, Created, Updated);
}
