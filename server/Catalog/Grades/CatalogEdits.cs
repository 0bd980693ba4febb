using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Grades;

/// <summary>A change of one grade.</summary>
/// <param name="Id">The grade.</param>
/// <param name="ExpectedETag">The etag that it must have; null: whichever.</param>
/// <param name="Edit">From the grade as it is to the grade as it shall be; it may throw to refuse.</param>
/// <param name="Add">The grade to add where there is none; null: refuse then.</param>
public sealed record GradeUpdate(string Id, string? ExpectedETag, Func<CatalogGrade, Grade> Edit, Func<Grade>? Add = null);

/// <summary>From a request and the catalogue as it is to a change, or a refusal. Pure; used inside a store's write.</summary>
public static class CatalogEdits
{
    /// <summary>Adds a grade.</summary>
    /// <exception cref="CatalogRefusedException">There is one of that id, or its currency is not the catalogue's.</exception>
    public static CatalogChange Create(CatalogSnapshot catalog, Grade grade)
    {
        if (catalog.Find(grade.Id) is not null)
        {
            throw new CatalogRefusedException(
                RefusalReason.AlreadyExists,
                grade.Id,
                $"The catalogue has a grade \"{grade.Id}\" already; update it, or choose another id.");
        }

        return Checked(catalog, new CatalogChange([grade], []));
    }

    /// <summary>Changes grades, all or none. Their ids must differ.</summary>
    /// <exception cref="CatalogRefusedException">A grade is missing, an etag is stale, or a currency is not the catalogue's.
    /// </exception>
    public static CatalogChange Update(CatalogSnapshot catalog, IReadOnlyList<GradeUpdate> updates) =>
        Checked(catalog, new CatalogChange([.. updates.Select(update => Updated(catalog, update))], []));

    /// <summary>Removes a grade.</summary>
    /// <exception cref="CatalogRefusedException">It is missing, or the etag is stale.</exception>
    public static CatalogChange Delete(CatalogSnapshot catalog, string id, string? expectedETag)
    {
        CheckETag(catalog.Find(id) ?? throw CatalogRefusedException.NotFound(id), expectedETag);
        return new CatalogChange([], [id]);
    }

    private static Grade Updated(CatalogSnapshot catalog, GradeUpdate update)
    {
        if (catalog.Find(update.Id) is not { } current)
        {
            return update.Add is null || update.ExpectedETag is not null
                ? throw CatalogRefusedException.NotFound(update.Id)
                : update.Add();
        }

        CheckETag(current, update.ExpectedETag);
        return update.Edit(current);
    }

    private static void CheckETag(CatalogGrade current, string? expected)
    {
        if (expected is not null && expected != current.ETag)
        {
            throw new CatalogRefusedException(
                RefusalReason.StaleETag,
                current.Id,
                $"The grade \"{current.Id}\" has changed since it was read; read it again and repeat the change.");
        }
    }

    // One catalogue, one currency: prices of two cannot be compared. A change that replaces every grade may change it.
    private static CatalogChange Checked(CatalogSnapshot catalog, CatalogChange change)
    {
        HashSet<string> put = [.. change.Put.Select(grade => grade.Id)];
        string? currency = catalog.Grades.FirstOrDefault(kept => !put.Contains(kept.Id))?.Grade.Price.Currency
            ?? change.Put.FirstOrDefault()?.Price.Currency;
        if (change.Put.FirstOrDefault(grade => grade.Price.Currency != currency) is { } other)
        {
            throw new CatalogRefusedException(
                RefusalReason.OtherCurrency,
                other.Id,
                $"The price of \"{other.Id}\" is in {other.Price.Currency}, the catalogue's are in {currency}; "
                    + "a catalogue holds one currency, so convert the price or change every grade at once.");
        }

        return change;
    }
}
