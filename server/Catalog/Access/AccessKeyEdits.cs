using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Access;

/// <summary>From what is asked of keys and the catalogue as it is to the change to make, or a refusal. Pure: meant to run
/// inside <see cref="ICatalogStore.Write"/>.</summary>
public static class AccessKeyEdits
{
    /// <summary>Adds a key.</summary>
    /// <exception cref="CatalogRefusedException">There is, or was, one of that id.</exception>
    public static CatalogChange Create(CatalogSnapshot catalog, AccessKey key)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(key);
        return catalog.FindAccessKey(key.Id) is null
            ? CatalogChange.None with { PutAccessKeys = [key] }
            : throw new CatalogRefusedException(
                RefusalReason.AlreadyExists,
                key.Id,
                $"There is a key \"{key.Id}\" already, good or not; choose another id.")
            {
                Kind = ResourceKind.AccessKey,
            };
    }

    /// <summary>Makes a key good for nothing from a time on. One that is revoked already stays as it is.</summary>
    /// <exception cref="CatalogRefusedException">There is none of that id.</exception>
    public static CatalogChange Revoke(CatalogSnapshot catalog, string id, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        AccessKey key = catalog.FindAccessKey(id)?.Key ?? throw CatalogRefusedException.NoAccessKey(id);
        return key.Revoked is null
            ? CatalogChange.None with { PutAccessKeys = [key with { Revoked = now }] }
            : CatalogChange.None;
    }
}
