using CableCatalog.Catalog.Access;

namespace CableCatalog.Service.Doors;

/// <summary>The caller's role does not reach to what is asked.</summary>
internal sealed class NotAllowedException(AccessRole needed) : Exception($"the role {needed} is needed")
{
    /// <summary>What would do.</summary>
    public AccessRole Needed { get; } = needed;
}
