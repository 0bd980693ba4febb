namespace CableCatalog.Catalog.History;

/// <summary>Where a write comes from.</summary>
/// <param name="Who">Who asks for it, as the journal is to say: the id of a key, or the program and its user.</param>
/// <param name="Request">The caller's mark on the request; null where it has none.</param>
public sealed record WriteOrigin(string Who, RequestMark? Request = null);

/// <summary>A caller's mark on a request: a write that was made with one is not made again with it.</summary>
/// <param name="Id">The caller's own id of the request.</param>
/// <param name="Sha256">Of all that was asked: the same id with something else is refused.</param>
public sealed record RequestMark(string Id, string Sha256);
