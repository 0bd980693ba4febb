using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Grades;

/// <summary>From what is asked and the catalogue as it is to the change to make, or a refusal. Pure: meant to run inside
/// <see cref="ICatalogStore.Write"/>.</summary>
/// <remarks>A catalogue has prices in one currency. A change that writes every grade it leaves may change that currency.
/// </remarks>
public static class CatalogEdits
{
    /// <summary>Adds a grade.</summary>
    /// <exception cref="CatalogRefusedException">There is one of that id, or its price is in another currency.</exception>
    public static CatalogChange Create(CatalogSnapshot catalog, Grade grade) => All(catalog, [new CatalogEdit.Create(grade)]);

    /// <summary>Changes a grade; see <see cref="CatalogEdit.Update"/>.</summary>
    /// <exception cref="CatalogRefusedException">It is not there, or has changed, or its price is in another currency.
    /// </exception>
    public static CatalogChange Update(
        CatalogSnapshot catalog, string id, string? expectedETag, Func<Grade, Grade> edit, Func<Grade>? createIfMissing = null) =>
        All(catalog, [new CatalogEdit.Update(id, expectedETag, edit, createIfMissing)]);

    /// <summary>Removes a grade; see <see cref="CatalogEdit.Delete"/>.</summary>
    /// <exception cref="CatalogRefusedException">It is not there, or has changed.</exception>
    public static CatalogChange Delete(CatalogSnapshot catalog, string id, string? expectedETag) =>
        All(catalog, [new CatalogEdit.Delete(id, expectedETag)]);

    /// <summary>Makes all edits or none.</summary>
    /// <param name="catalog">The catalogue as it is.</param>
    /// <param name="edits">The edits, no two of one grade.</param>
    /// <exception cref="CatalogRefusedException">One is refused; its grade is named.</exception>
    public static CatalogChange All(CatalogSnapshot catalog, IEnumerable<CatalogEdit> edits)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(edits);
        var put = new List<Grade>();
        var remove = new List<string>();
        foreach (CatalogEdit edit in edits)
        {
            CatalogGrade? present = catalog.Find(edit.GradeId);
            switch (edit)
            {
                case CatalogEdit.Create create:
                    put.Add(present is null ? create.Grade : throw AlreadyExists(create.GradeId));
                    break;
                case CatalogEdit.Update update:
                    put.Add(Updated(present, update));
                    break;
                case CatalogEdit.Delete delete:
                    RequirePresent(present, delete.Id, delete.ExpectedETag);
                    remove.Add(delete.Id);
                    break;
            }
        }

        RequireOneCurrency(catalog, put, remove);
        return new CatalogChange(put, remove);
    }

    private static Grade Updated(CatalogGrade? present, CatalogEdit.Update update)
    {
        Grade grade;
        if (present is null && update is { ExpectedETag: null, CreateIfMissing: { } create })
        {
            grade = create();
        }
        else
        {
            grade = update.Edit(RequirePresent(present, update.Id, update.ExpectedETag).Grade);
        }

        return grade.Id == update.Id ? grade : throw new ArgumentException("the edited grade must keep its id", nameof(update));
    }

    private static CatalogGrade RequirePresent(CatalogGrade? present, string id, string? expectedETag)
    {
        if (expectedETag is null || present?.ETag == expectedETag)
        {
            return present ?? throw CatalogRefusedException.NotFound(id);
        }

        throw new CatalogRefusedException(
            RefusalReason.StaleETag,
            id,
            present is null
                ? $"Grade \"{id}\" has been removed since it was read; list the grades and decide anew."
                : $"Grade \"{id}\" has been changed since it was read; read it again and repeat the change.");
    }

    private static CatalogRefusedException AlreadyExists(string id) => new(
        RefusalReason.AlreadyExists, id, $"There is a grade \"{id}\" already; choose another id, or update that grade.");

    private static void RequireOneCurrency(CatalogSnapshot catalog, List<Grade> put, List<string> remove)
    {
        if (put.Count == 0)
        {
            return;
        }

        HashSet<string> touched = [.. put.Select(grade => grade.Id), .. remove];
        Grade measure = catalog.Grades.FirstOrDefault(grade => !touched.Contains(grade.Id))?.Grade ?? put[0];
        if (put.Find(grade => grade.Price.Currency != measure.Price.Currency) is { } other)
        {
            throw new CatalogRefusedException(
                RefusalReason.OtherCurrency,
                other.Id,
                $"Grade \"{other.Id}\" is priced in {other.Price.Currency} but the catalogue in {measure.Price.Currency}; "
                    + $"price it in {measure.Price.Currency}, or change the currency of every grade in one change.");
        }
    }
}
