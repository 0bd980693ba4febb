namespace CableCatalog.Client.Units;

/// <summary>Which units people want to see.</summary>
internal enum UnitSystem
{
    /// <summary>Pounds-force, inches and feet.</summary>
    Us,

    /// <summary>Newtons and metres; angles stay in degrees.</summary>
    Si,
}
