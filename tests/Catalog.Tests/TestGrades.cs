using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Tests;

/// <summary>Invented grades. Their values mean nothing: they are only to be kept and given back.</summary>
internal static class TestGrades
{
    /// <summary>A grade with every field set.</summary>
    internal static Grade Full(string id, string currency = "USD", decimal perMetre = 12.345678901m) => new(
        id,
        $"Grade {id}",
        "nineteen wires, laid \u2014 \"tight\"\nand greased",
        "smooth liner \u00b5",
        CoefficientBasis.Measured,
        new CableBands(
            new Band(0.05, 0.1, 0.30000000000000004),
            new Band(1, 2, 3),
            new Band(0.1, 0.2, 0.3),
            new Core(0.123456789, 0.0007)),
        1.5e6,
        new CableRatings(0.2, new LengthsMade(0.3048, 30.48, 0.3048), 4000, 1200.5, 0.1016, CoreConstruction.Stranded),
        new PriceRule(
            new Money(40.000000001m, currency),
            new Money(perMetre, currency),
            new Money(7.50m, currency),
            new DateOnly(2031, 2, 28)));

    /// <summary>A grade with everything left out that may be.</summary>
    internal static Grade Bare(string id, string currency = "USD") => new(
        id,
        "Bare",
        string.Empty,
        string.Empty,
        CoefficientBasis.Assumed,
        new CableBands(Band.Exactly(0), default, default, null),
        null,
        new CableRatings(0.005, new LengthsMade(1, 1, 1), null, null, null, CoreConstruction.Unstated),
        new PriceRule(new Money(0, currency), new Money(0, currency), new Money(0.000000001m, currency), DateOnly.MinValue));

    /// <summary>Several grades, g00 and up.</summary>
    internal static Grade[] Some(int count) =>
        [.. Enumerable.Range(0, count).Select(i => i % 3 == 0 ? Bare($"g{i:00}") : Full($"g{i:00}"))];

    /// <summary>A change that names every grade after the revision it makes, so that a mixture of revisions shows.</summary>
    internal static CatalogChange NameAllAfterNextRevision(CatalogSnapshot before) =>
        new([.. before.Grades.Select(g => g.Grade with { DisplayName = NameAt(before.Revision + 1) })], []);

    /// <summary>The name that <see cref="NameAllAfterNextRevision"/> gave.</summary>
    internal static string NameAt(long revision) => FormattableString.Invariant($"named at {revision}");

    /// <summary>Whether a snapshot is whole: all grades there, all named after its revision, unless that is the one at which they were
    /// made.</summary>
    internal static void RequireWhole(CatalogSnapshot catalog, int count, long madeAt = 1)
    {
        Assert.Equal(count, catalog.Count);
        if (catalog.Revision > madeAt)
        {
            Assert.All(
                catalog.Grades,
                g => Assert.Equal((NameAt(catalog.Revision), catalog.Revision), (g.Grade.DisplayName, g.Revision)));
        }
    }

    /// <summary>Whether two snapshots are the same revision with the same grades.</summary>
    internal static void RequireSame(CatalogSnapshot expected, CatalogSnapshot actual)
    {
        Assert.Equal(expected.Revision, actual.Revision);
        Assert.Equal(expected.Grades, actual.Grades);
    }

    /// <summary>Writes as a test.</summary>
    internal static CatalogSnapshot Write(
        this ICatalogStore store, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation) =>
        store.Write(new WriteOrigin("a test"), decide, cancellation).Catalog;

    /// <summary>Puts one grade.</summary>
    internal static CatalogSnapshot Put(this ICatalogStore store, Grade grade) =>
        store.Write(_ => new CatalogChange([grade], []), CancellationToken.None);

    /// <summary>Removes one grade.</summary>
    internal static CatalogSnapshot Remove(this ICatalogStore store, string id) =>
        store.Write(_ => new CatalogChange([], [id]), CancellationToken.None);
}
