using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Grades;

public class CatalogEditsTests
{
    private static readonly DateTimeOffset Day = new(2031, 1, 1, 0, 0, 0, TimeSpan.Zero);

    // 640605888000000000 hundreds of nanoseconds from the year 1 to that day.
    private const string Written = "8e3e3a93b438000";

    private static readonly CatalogSnapshot TwoGrades = CatalogSnapshot.Of(
        7,
        [new CatalogGrade(TestGrades.Full("a"), 3, Day, Day), new CatalogGrade(TestGrades.Bare("b"), 7, Day, Day)]);

    [Fact]
    public void Creating_puts_the_grade()
    {
        CatalogChange change = CatalogEdits.Create(TwoGrades, TestGrades.Full("c"));

        Assert.Equal([TestGrades.Full("c")], change.Put);
        Assert.Empty(change.Remove);
    }

    [Fact]
    public void Creating_what_is_there_is_refused() => Refused(
        () => CatalogEdits.Create(TwoGrades, TestGrades.Bare("a")),
        RefusalReason.AlreadyExists,
        "a",
        "There is a grade \"a\" already; choose another id, or update that grade.");

    [Theory]
    [InlineData("r3-" + Written)]
    [InlineData(null)]
    public void Updating_edits_the_present_grade(string? etag)
    {
        CatalogChange change = CatalogEdits.Update(
            TwoGrades, "a", etag, grade => grade with { DisplayName = grade.DisplayName + "!" });

        Assert.Equal([TestGrades.Full("a") with { DisplayName = "Grade a!" }], change.Put);
    }

    [Theory]
    [InlineData("r2-" + Written)]
    [InlineData("r7-" + Written)]
    [InlineData("")]
    public void Updating_with_another_etag_is_refused(string etag) => Refused(
        () => CatalogEdits.Update(TwoGrades, "a", etag, grade => grade, () => TestGrades.Bare("a")),
        RefusalReason.StaleETag,
        "a",
        "Grade \"a\" has been changed since it was read; read it again and repeat the change.");

    [Fact]
    public void Updating_what_is_not_there_is_refused() => Refused(
        () => CatalogEdits.Update(TwoGrades, "c", null, grade => grade),
        RefusalReason.NotFound,
        "c",
        "The catalogue has no grade \"c\"; list the grades to see which it has.");

    [Fact]
    public void Updating_what_has_gone_since_is_refused_even_where_it_may_be_created() => Refused(
        () => CatalogEdits.Update(TwoGrades, "c", "r2-" + Written, grade => grade, () => TestGrades.Bare("c")),
        RefusalReason.StaleETag,
        "c",
        "Grade \"c\" has been removed since it was read; list the grades and decide anew.");

    [Fact]
    public void Updating_what_is_not_there_may_create_it()
    {
        CatalogChange change = CatalogEdits.Update(
            TwoGrades, "c", null, _ => throw new InvalidOperationException(), () => TestGrades.Bare("c"));

        Assert.Equal([TestGrades.Bare("c")], change.Put);
    }

    [Fact]
    public void An_edit_cannot_give_another_id() =>
        Assert.Throws<ArgumentException>(() => CatalogEdits.Update(TwoGrades, "a", null, _ => TestGrades.Bare("c")));

    [Fact]
    public void An_edit_that_throws_passes_through() => Assert.Throws<TimeoutException>(
        () => CatalogEdits.Update(TwoGrades, "a", null, _ => throw new TimeoutException()));

    [Theory]
    [InlineData("r7-" + Written)]
    [InlineData(null)]
    public void Deleting_removes_the_grade(string? etag)
    {
        CatalogChange change = CatalogEdits.Delete(TwoGrades, "b", etag);

        Assert.Equal(["b"], change.Remove);
        Assert.Empty(change.Put);
    }

    [Fact]
    public void Deleting_what_is_not_there_is_refused() => Refused(
        () => CatalogEdits.Delete(TwoGrades, "c", null),
        RefusalReason.NotFound,
        "c",
        "The catalogue has no grade \"c\"; list the grades to see which it has.");

    [Fact]
    public void Deleting_with_another_etag_is_refused() => Refused(
        () => CatalogEdits.Delete(TwoGrades, "b", "r6-" + Written),
        RefusalReason.StaleETag,
        "b",
        "Grade \"b\" has been changed since it was read; read it again and repeat the change.");

    [Fact]
    public void A_batch_is_one_change()
    {
        CatalogChange change = CatalogEdits.All(
            TwoGrades,
            [
                new CatalogEdit.Create(TestGrades.Bare("c")),
                new CatalogEdit.Update("a", "r3-" + Written, grade => grade with { DisplayName = "new" }),
                new CatalogEdit.Delete("b", "r7-" + Written),
            ]);

        Assert.Equal([TestGrades.Bare("c"), TestGrades.Full("a") with { DisplayName = "new" }], change.Put);
        Assert.Equal(["b"], change.Remove);
    }

    [Fact]
    public void A_batch_is_refused_for_one_of_its_edits() => Refused(
        () => CatalogEdits.All(
            TwoGrades, [new CatalogEdit.Create(TestGrades.Bare("c")), new CatalogEdit.Update("a", "r1-" + Written, grade => grade)]),
        RefusalReason.StaleETag,
        "a",
        "Grade \"a\" has been changed since it was read; read it again and repeat the change.");

    [Fact]
    public void Another_currency_is_refused() => Refused(
        () => CatalogEdits.Create(TwoGrades, TestGrades.Full("c", "EUR")),
        RefusalReason.OtherCurrency,
        "c",
        "Grade \"c\" is priced in EUR but the catalogue in USD; "
            + "price it in USD, or change the currency of every grade in one change.");

    [Fact]
    public void An_update_to_another_currency_is_refused() => Assert.Equal(
        RefusalReason.OtherCurrency,
        Assert.Throws<CatalogRefusedException>(
            () => CatalogEdits.Update(TwoGrades, "b", null, _ => TestGrades.Bare("b", "EUR"))).Reason);

    [Fact]
    public void Two_currencies_in_one_change_are_refused_in_an_empty_catalogue_too()
    {
        var refused = Assert.Throws<CatalogRefusedException>(() => CatalogEdits.All(
            CatalogSnapshot.Empty,
            [new CatalogEdit.Create(TestGrades.Bare("a")), new CatalogEdit.Create(TestGrades.Bare("b", "EUR"))]));

        Assert.Equal((RefusalReason.OtherCurrency, "b"), (refused.Reason, refused.Id));
    }

    [Fact]
    public void A_change_of_every_grade_may_change_the_currency()
    {
        CatalogChange all = CatalogEdits.All(
            TwoGrades,
            [
                new CatalogEdit.Update("a", null, _ => TestGrades.Full("a", "EUR")),
                new CatalogEdit.Update("b", null, _ => TestGrades.Bare("b", "EUR")),
            ]);
        CatalogChange withRemoval = CatalogEdits.All(
            TwoGrades,
            [new CatalogEdit.Update("a", null, _ => TestGrades.Full("a", "EUR")), new CatalogEdit.Delete("b", null)]);

        Assert.All(all.Put.Concat(withRemoval.Put), grade => Assert.Equal("EUR", grade.Price.Currency));
    }

    [Fact]
    public void The_only_grade_may_change_currency()
    {
        var one = CatalogSnapshot.Of(1, [new CatalogGrade(TestGrades.Bare("a"), 1, Day, Day)]);

        Assert.Equal("EUR", CatalogEdits.Update(one, "a", "r1-" + Written, _ => TestGrades.Bare("a", "EUR")).Put[0].Price.Currency);
    }

    private static void Refused(Action edit, RefusalReason reason, string id, string message)
    {
        var refused = Assert.Throws<CatalogRefusedException>(edit);
        Assert.Equal((reason, id, message), (refused.Reason, refused.Id, refused.Message));
    }
}
