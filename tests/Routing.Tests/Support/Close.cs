namespace CableCatalog.Routing.Tests.Support;

/// <summary>Closeness of figures and of points.</summary>
internal static class Close
{
    public static void To(double expected, double actual, double within) =>
        Assert.True(
            Math.Abs(actual - expected) <= within,
            FormattableString.Invariant($"expected {expected:R} within {within:R}, found {actual:R}"));

    public static void To(Vec expected, Vec actual, double within) =>
        Assert.True((actual - expected).Length <= within, $"expected {expected} within {within}, found {actual}");

    public static void AtLeast(double least, double actual, double rounding = 1e-9) =>
        Assert.True(
            actual >= least - rounding, FormattableString.Invariant($"expected at least {least:R}, found {actual:R}"));
}
