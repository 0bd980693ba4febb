using CableCatalog.Catalog.Grades;

namespace CableCatalog.Service.Doors;

/// <summary>Looks again, while a long call goes on, whether its key is still good.</summary>
internal static class KeyHolder
{
    /// <summary>Ends the call where it is not.</summary>
    /// <exception cref="KeyEndedException">It is not.</exception>
    public static void Require(CatalogSnapshot catalog, Caller caller, DateTimeOffset now)
    {
        if (caller.KeyId is { } id && catalog.FindAccessKey(id)?.Key.IsGoodAt(now) != true)
        {
            throw new KeyEndedException();
        }
    }
}

/// <summary>A key has expired, or was revoked, while a call with it went on.</summary>
internal sealed class KeyEndedException() : Exception(
    "The key has expired or has been revoked while the call went on: ask an administrator for another.");
