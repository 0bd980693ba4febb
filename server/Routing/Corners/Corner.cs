namespace CableCatalog.Routing.Corners;

/// <summary>A corner of a route: where two straight runs would meet. The first and the last are the ends of the cable.</summary>
/// <param name="At">Where, m.</param>
/// <param name="RadiusM">Radius of the cable's middle line, m; null: as wide as fits, and always null at the ends.</param>
public readonly record struct Corner(Vec At, double? RadiusM = null);
