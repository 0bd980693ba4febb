using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Tests.Support;

/// <summary>Catalogues of any size with invented grades. The same seed gives the same grades.</summary>
internal static class ManyGrades
{
    /// <summary>Some grades.</summary>
    /// <param name="count">How many.</param>
    /// <param name="seed">Of what is drawn.</param>
    /// <param name="withCore">Share of those whose core is known, 0 to 1.</param>
    public static CatalogSnapshot Catalogue(int count, int seed, double withCore)
    {
        var random = new Random(seed);
        return CatalogSnapshot.Of(1, Enumerable.Range(0, count).Select(i => Drawn(random, $"g{i:000000}", withCore)));
    }

    /// <summary>One grade.</summary>
    public static CatalogGrade Drawn(Random random, string id, double withCore)
    {
        double friction = Between(0.03, 0.3);
        double sealN = Between(0, 4);
        double runningNPerM = random.Next(4) == 0 ? 0 : Between(0.1, 1.5);
        Core? core = random.NextDouble() < withCore ? new Core(Between(0.05, 0.3), Between(3e-4, 1.2e-3)) : null;
        double shortestM = Between(0.5, 2);
        var grade = new Grade(
            id,
            $"Grade {id}",
            "laid wire",
            "plastic tube",
            random.Next(10) == 0 ? CoefficientBasis.Measured : CoefficientBasis.Assumed,
            new CableBands(Spread(friction), Spread(sealN), Spread(runningNPerM), core),
            random.Next(2) == 0 ? null : Between(1e5, 4e5),
            new CableRatings(
                Between(0.1, 0.28),
                new LengthsMade(shortestM, shortestM + Between(4, 15), random.Next(2) == 0 ? 0.1524 : 0.3048),
                random.Next(3) == 0 ? null : Between(300, 900),
                random.Next(3) == 0 ? null : Between(150, 500),
                random.Next(3) == 0 ? null : Between(0.07, 0.15),
                random.Next(2) == 0 ? CoreConstruction.Stranded : CoreConstruction.Solid),
            new PriceRule(Cents(20, 200), Cents(2, 40), Cents(0, 30), new DateOnly(2026, 10, 1)));
        return new CatalogGrade(grade, 1, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch);

        double Between(double least, double most) => least + (random.NextDouble() * (most - least));
        Band Spread(double likely) => new(likely * Between(0.6, 1), likely, likely * Between(1, 1.5));
        Money Cents(int least, int most) => new(random.Next(least * 100, (most * 100) + 1) / 100m, "USD");
    }
}
