namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>People's units in SI. Source: NIST SP 811, appendix B.</summary>
internal static class Units
{
    public const double NewtonsPerLbf = 4.4482216152605;

    public const double MetresPerInch = 0.0254;

    public const double MetresPerFoot = 0.3048;

    public const double RadiansPerDegree = Math.PI / 180;
}
