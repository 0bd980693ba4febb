using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Access;

/// <summary>A key to the service. The key itself is known to its holder alone; kept is its SHA-256.</summary>
/// <param name="Id">Formed as a <see cref="GradeId"/>; never used again after a removal.</param>
/// <param name="DisplayName">Whom it is for.</param>
/// <param name="Role">What it is good for.</param>
/// <param name="Sha256">Of the key's secret part, 64 lower-case hexadecimal digits.</param>
/// <param name="Expires">From when on it is good for nothing, UTC; null: never.</param>
/// <param name="Revoked">Since when it is good for nothing because somebody said so, UTC; null: it is not revoked.</param>
public sealed record AccessKey(
    string Id, string DisplayName, AccessRole Role, string Sha256, DateTimeOffset? Expires, DateTimeOffset? Revoked)
{
    /// <summary>Whether it is good at a time.</summary>
    public bool IsGoodAt(DateTimeOffset now) => Revoked is null && (Expires is not { } end || now < end);
}

/// <summary>A key as the catalogue holds it.</summary>
/// <param name="Key">The key.</param>
/// <param name="Revision">The catalogue's revision at which it was last written.</param>
/// <param name="Created">When it was created, UTC.</param>
/// <param name="Updated">When it was last changed, UTC.</param>
public sealed record CatalogAccessKey(AccessKey Key, long Revision, DateTimeOffset Created, DateTimeOffset Updated)
{
    /// <summary>Its id.</summary>
    public string Id => Key.Id;

    /// <summary>Changes whenever the key changes.</summary>
    public string ETag => CatalogETag.Of(Revision, Updated);
}
