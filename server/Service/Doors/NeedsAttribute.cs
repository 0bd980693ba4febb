using CableCatalog.Catalog.Access;

namespace CableCatalog.Service.Doors;

/// <summary>What a caller must be to call a method. Without it a reader will do.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
internal sealed class NeedsAttribute(AccessRole role) : Attribute
{
    /// <summary>At least this.</summary>
    public AccessRole Role { get; } = role;
}

/// <summary>Marks what answers anybody, key or not: health, which tells no more of the catalogue than its revision.</summary>
internal sealed class OpenToAll;
