using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>Price lists are kept as grades are. All are invented.</summary>
public class PriceListKeepingTests
{
    [Fact]
    public void Every_field_comes_back_from_the_copy_and_from_the_file()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using (LiteCatalogStore store = catalog.Open())
        {
            Put(store, Full("full"));
            Put(store, Bare("bare"));
        }

        Assert.All([catalog.Read(), catalog.Own()], there =>
        {
            Assert.Equal(["bare", "full"], there.PriceLists.Select(list => list.Id));
            RequireAlike(Bare("bare"), there.FindPriceList("bare")!.List);
            RequireAlike(Full("full"), there.FindPriceList("full")!.List);
            Assert.Equal(2, there.Count);
        });
    }

    [Fact]
    public void The_copy_counts_them()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using (LiteCatalogStore store = catalog.Open())
        {
            Put(store, Bare("bare"));
        }

        Assert.Contains("\"count\":2,\"priceLists\":1,", PublishedCopy.ReadSeal(catalog.Published).Header, StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_price_is_found_out()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using (LiteCatalogStore store = catalog.Open())
        {
            Put(store, Full("full"));
        }

        string text = File.ReadAllText(catalog.Published);
        Assert.Contains("31.50", text, StringComparison.Ordinal);
        File.WriteAllText(catalog.Published, text.Replace("31.50", "31.40", StringComparison.Ordinal));

        // The copy is put right from the file, which still has what was written.
        using LiteCatalogStore again = catalog.Open();
        RequireAlike(Full("full"), again.Current.FindPriceList("full")!.List);
    }

    [Fact]
    public void Two_lists_of_one_name_and_stale_etags_are_refused_and_change_nothing()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using LiteCatalogStore store = catalog.Open();
        CatalogSnapshot first = Put(store, Bare("one"));
        string etag = first.FindPriceList("one")!.ETag;
        CatalogSnapshot second = store.Write(now => PriceListEdits.Put(now, Full("one"), true, etag), CancellationToken.None);

        Refuses(RefusalReason.AlreadyExists, now => PriceListEdits.Put(now, Bare("one"), false, null));
        Refuses(RefusalReason.StaleETag, now => PriceListEdits.Put(now, Bare("one"), true, etag));
        Refuses(RefusalReason.StaleETag, now => PriceListEdits.Delete(now, "one", etag));
        Refuses(RefusalReason.NotFound, now => PriceListEdits.Delete(now, "other", null));
        Assert.Equal(second.Revision, store.Current.Revision);
        Assert.Equal(first.FindPriceList("one")!.Created, second.FindPriceList("one")!.Created);

        void Refuses(RefusalReason reason, Func<CatalogSnapshot, CatalogChange> decide)
        {
            var refused = Assert.Throws<CatalogRefusedException>(() => store.Write(decide, CancellationToken.None));
            Assert.Equal((reason, ResourceKind.PriceList), (refused.Reason, refused.Kind));
        }
    }

    private static CatalogSnapshot Put(LiteCatalogStore store, PriceList list) =>
        store.Write(now => PriceListEdits.Put(now, list, false, null), CancellationToken.None);

    private static void RequireAlike(PriceList expected, PriceList actual)
    {
        Assert.Equal(
            (expected.Id, expected.DisplayName, expected.Currency, expected.ValidFrom, expected.ValidUntil, expected.TaxShare),
            (actual.Id, actual.DisplayName, actual.Currency, actual.ValidFrom, actual.ValidUntil, actual.TaxShare));
        Assert.Equal(
            (expected.Labour, expected.Fittings, expected.OtherGrades), (actual.Labour, actual.Fittings, actual.OtherGrades));
        Assert.Equal(expected.Breaks, actual.Breaks);
        Assert.Equal(expected.Grades.Keys.Order(StringComparer.Ordinal), actual.Grades.Keys.Order(StringComparer.Ordinal));
        Assert.All(expected.Grades, grade =>
        {
            Assert.Equal(grade.Value.Pricing, actual.Grades[grade.Key].Pricing);
            Assert.Equal(grade.Value.Breaks, actual.Grades[grade.Key].Breaks);
        });
    }

    private static Money Xts(decimal amount) => new(amount, "XTS");

    private static PriceList Bare(string id) => new(
        id,
        "Bare",
        "XTS",
        DateOnly.MinValue,
        DateOnly.MinValue,
        0,
        null,
        null,
        new Dictionary<string, ListedGrade>(),
        new GradePricing.Margin(0),
        []);

    private static PriceList Full(string id) => new(
        id,
        "Full \u2014 \"of everything\"",
        "XTS",
        new DateOnly(2031, 2, 28),
        new DateOnly(2032, 2, 29),
        0.0825m,
        new LabourRates(Xts(84.000000001m), 0.75m, 2, 0.333333m),
        Xts(4.80m),
        new Dictionary<string, ListedGrade>
        {
            ["g00"] = new(new GradePricing.Margin(0.18m), []),
            ["g01"] = new(
                new GradePricing.Own(new PriceRule(Xts(128), Xts(31.50m), Xts(0), new DateOnly(2031, 2, 28))),
                [new PriceBreak(5, 0.06m), new PriceBreak(10, 0.123456m)]),
        },
        new GradePricing.Margin(0.22m),
        [new PriceBreak(3, 0.04m)]);
}
