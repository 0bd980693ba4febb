using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;
using CsCheck;

namespace CableCatalog.Catalog.Tests.Storage;

public class KeepingTests
{
    private static readonly Gen<Band> Bands =
        Gen.Double[0, 1e-3].Array[3].Select(x => new Band(x[0], x[0] + x[1], x[0] + x[1] + x[2]));

    // Nine decimals, as the contract's money has.
    private static readonly Gen<decimal> Amounts = Gen.Long[1, 999_999_999_999].Select(nanos => nanos * 0.000000001m);

    private static readonly Gen<Grade> Grades = Gen.Select(
        Gen.String[Gen.Char["aé\u2028\"\\\n\t<&水0 "], 0, 20],
        Bands.Array[3],
        Gen.Double[0.005, 1].Array[8],
        Gen.Bool.Array[6],
        Amounts.Array[3],
        Gen.Int[0, DateOnly.MaxValue.DayNumber],
        (text, bands, x, known, money, day) => new Grade(
            "any",
            text,
            text + text,
            "liner",
            known[0] ? CoefficientBasis.Measured : CoefficientBasis.Assumed,
            new CableBands(bands[0], bands[1], bands[2], known[1] ? new Core(x[0], x[1]) : null),
            known[2] ? x[2] * 1e8 : null,
            new CableRatings(
                x[3],
                new LengthsMade(x[4], x[4] + x[5], x[5]),
                known[3] ? x[6] : null,
                known[4] ? x[7] : null,
                known[5] ? x[0] : null,
                known[0] ? CoreConstruction.Solid : CoreConstruction.Stranded),
            new PriceRule(
                new Money(money[0], "XTS"),
                new Money(money[1], "XTS"),
                new Money(money[2], "XTS"),
                DateOnly.FromDayNumber(day))));

    [Fact]
    public void Every_field_comes_back_from_the_copy_and_from_the_file()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Full("full"), TestGrades.Bare("bare"));

        Assert.Equal([TestGrades.Bare("bare"), TestGrades.Full("full")], catalog.Read().Grades.Select(g => g.Grade));
        Assert.Equal([TestGrades.Bare("bare"), TestGrades.Full("full")], catalog.Own().Grades.Select(g => g.Grade));
        Assert.Equal([TestGrades.Bare("bare"), TestGrades.Full("full")], PublishedAnew(catalog).Grades.Select(g => g.Grade));
    }

    [Fact]
    public void Any_grade_comes_back_bit_for_bit()
    {
        using TestCatalog catalog = TestCatalog.With();
        using LiteCatalogStore store = catalog.Open();
        Grades.Array[20].Sample(
            grades =>
            {
                Grade[] numbered = [.. grades.Select((grade, i) => grade with { Id = $"g{i:00}" })];
                store.Write(_ => new CatalogChange(numbered, []), CancellationToken.None);
                Grade[] back = [.. catalog.Read().Grades.Select(g => g.Grade)];
                return numbered.SequenceEqual(back) && numbered.Select(Digits).SequenceEqual(back.Select(Digits));
            },
            seed: "0N0XIzNsQ0O2",
            iter: 20,
            threads: 1);
        CatalogSnapshot last = store.Current;
        store.Dispose();
        Assert.Equal(last.Grades, catalog.Own().Grades);
    }

    [Fact]
    public void A_new_catalogue_is_at_revision_1()
    {
        using TestCatalog catalog = TestCatalog.With();

        Assert.Equal((1, 0), (catalog.Read().Revision, catalog.Read().Count));
        Assert.Equal((1, 0), (catalog.Own().Revision, catalog.Own().Count));
    }

    [Fact]
    public void Times_are_those_of_the_clock_and_creation_is_kept()
    {
        using var catalog = new TestCatalog();
        DateTimeOffset created = catalog.Clock.Now;
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));
        catalog.Clock.Now = created.AddDays(1).AddTicks(1);

        store.Put(TestGrades.Full("a"));

        CatalogGrade grade = catalog.Read().Find("a")!;
        Assert.Equal((created, created.AddDays(1).AddTicks(1)), (grade.Created, grade.Updated));
    }

    [Fact]
    public void A_write_raises_the_revision_by_one_and_marks_only_what_it_wrote()
    {
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Some(3));

        CatalogSnapshot after = store.Put(TestGrades.Full("g01"));

        Assert.Same(after, store.Current);
        Assert.Equal([1, 2, 1], after.Grades.Select(g => g.Revision));
        Assert.Equal(2, after.Revision);
    }

    [Fact]
    public void An_etag_is_not_used_again_after_a_removal()
    {
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));
        var seen = new HashSet<string> { store.Current.Find("a")!.ETag };
        for (int i = 0; i < 3; i++)
        {
            store.Remove("a");
            Assert.Null(store.Current.Find("a"));
            Assert.True(seen.Add(store.Put(TestGrades.Bare("a")).Find("a")!.ETag));
        }

        store.Dispose();
        using LiteCatalogStore again = catalog.Open();
        again.Remove("a");
        Assert.True(seen.Add(again.Put(TestGrades.Bare("a")).Find("a")!.ETag));
    }

    [Fact]
    public void A_change_of_nothing_writes_nothing()
    {
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));
        store.TakeOwnership();
        string[] before = catalog.Fingerprint();

        Assert.Same(store.Current, store.Write(_ => new CatalogChange([], []), CancellationToken.None));
        Assert.Equal(1, store.Current.Revision);
        Assert.Equal(before, catalog.Fingerprint());
    }

    [Fact]
    public void A_decision_that_throws_changes_nothing_and_passes_through()
    {
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));
        store.TakeOwnership();
        string[] before = catalog.Fingerprint();

        Assert.Throws<CatalogRefusedException>(
            () => store.Write(now => CatalogEdits.Delete(now, "a", "r99"), CancellationToken.None));
        Assert.Equal(before, catalog.Fingerprint());
        Assert.Equal(2, store.Put(TestGrades.Full("b")).Revision);
    }

    [Fact]
    public void Put_and_removed_at_once_is_removed()
    {
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));

        store.Write(
            _ => new CatalogChange([TestGrades.Full("a"), TestGrades.Full("b")], ["a", "nothing"]), CancellationToken.None);
        store.Dispose();

        Assert.Equal(["b"], catalog.Read().Grades.Select(g => g.Id));
        Assert.Equal(["b"], catalog.Own().Grades.Select(g => g.Id));
    }

    [Fact]
    public void Five_thousand_grades_are_kept()
    {
        Grade full = TestGrades.Full("x");
        using TestCatalog catalog = TestCatalog.With(
            [.. Enumerable.Range(0, 5_000).Select(i => full with { Id = $"g{i:0000}" })]);
        using LiteCatalogStore store = catalog.Open();

        store.Put(full with { Id = "g2500", DisplayName = "changed" });

        CatalogSnapshot back = catalog.Read();
        Assert.Equal((5_000, "changed"), (back.Count, back.Find("g2500")!.Grade.DisplayName));
    }

    [Fact]
    public void A_closed_store_still_shows_its_catalogue_but_does_not_write()
    {
        using var catalog = new TestCatalog();
        LiteCatalogStore store = catalog.Create(TestGrades.Bare("a"));
        store.Dispose();
        store.Dispose();

        Assert.Equal(1, store.Current.Count);
        Assert.Throws<ObjectDisposedException>(() => store.Put(TestGrades.Bare("b")));
    }

    // Records compare decimals by value; the digits must come back too: 7.50 is not 7.5 on a price list.
    private static string Digits(Grade grade) => $"{grade.Price.Base} {grade.Price.PerMetre} {grade.Price.Fittings}";

    private static CatalogSnapshot PublishedAnew(TestCatalog catalog)
    {
        File.Delete(catalog.Published);
        return catalog.Read();
    }
}
