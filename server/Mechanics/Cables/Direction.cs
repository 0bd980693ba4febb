namespace CableCatalog.Mechanics.Cables;

/// <summary>What the core carries while the load is moved.</summary>
public enum Direction
{
    /// <summary>Tension.</summary>
    Pull,

    /// <summary>Compression: a core with known stiffness and clearance may snake and lock.</summary>
    Push,
}
