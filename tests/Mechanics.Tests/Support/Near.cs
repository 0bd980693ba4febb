namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>Closeness of two figures.</summary>
internal static class Near
{
    /// <summary>Asserts that a figure is within a share of the expected one. An infinite or NaN figure never is.</summary>
    public static void Relative(double expected, double actual, double tolerance) =>
        Assert.True(
            Math.Abs(actual - expected) <= tolerance * Math.Abs(expected),
            FormattableString.Invariant($"expected {expected:R} within {tolerance:R} of it, found {actual:R}"));

    /// <summary>Asserts that a figure is at least another, short of rounding. Infinity is at least infinity.</summary>
    public static void AtLeast(double least, double actual, double rounding = 1e-12) =>
        Assert.True(
            actual >= least - (rounding * Math.Abs(least)) || actual == least,
            FormattableString.Invariant($"expected at least {least:R}, found {actual:R}"));
}
