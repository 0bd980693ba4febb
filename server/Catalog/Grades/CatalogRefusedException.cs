namespace CableCatalog.Catalog.Grades;

/// <summary>Why the catalogue refuses a change.</summary>
public enum RefusalReason
{
    /// <summary>There is no such grade.</summary>
    NotFound,

    /// <summary>There is such a grade already.</summary>
    AlreadyExists,

    /// <summary>The grade has changed, or gone, since it was read.</summary>
    StaleETag,

    /// <summary>A price is not in the currency of the catalogue.</summary>
    OtherCurrency,
}

/// <summary>The catalogue refuses a change. The message is one sentence for people: what was found and what to do.</summary>
public sealed class CatalogRefusedException(RefusalReason reason, string gradeId, string message) : Exception(message)
{
    /// <summary>Why.</summary>
    public RefusalReason Reason { get; } = reason;

    /// <summary>Which grade.</summary>
    public string GradeId { get; } = gradeId;
}
