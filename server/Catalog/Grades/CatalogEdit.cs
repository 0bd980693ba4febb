namespace CableCatalog.Catalog.Grades;

/// <summary>What somebody asks to have changed in one grade.</summary>
public abstract record CatalogEdit
{
    private CatalogEdit()
    {
    }

    /// <summary>The grade it is about.</summary>
    public abstract string GradeId { get; }

    /// <summary>Adds a grade.</summary>
    /// <param name="Grade">The grade.</param>
    public sealed record Create(Grade Grade) : CatalogEdit
    {
        /// <inheritdoc/>
        public override string GradeId => Grade.Id;
    }

    /// <summary>Changes a grade.</summary>
    /// <param name="Id">Which.</param>
    /// <param name="ExpectedETag">The etag it was read with; null to change it whatever it is.</param>
    /// <param name="Edit">From the grade as it is to what it shall be, of the same id; may throw to refuse.</param>
    /// <param name="CreateIfMissing">What to add where there is none and no etag is expected; null to refuse.</param>
    public sealed record Update(string Id, string? ExpectedETag, Func<Grade, Grade> Edit, Func<Grade>? CreateIfMissing = null)
        : CatalogEdit
    {
        /// <inheritdoc/>
        public override string GradeId => Id;
    }

    /// <summary>Removes a grade.</summary>
    /// <param name="Id">Which.</param>
    /// <param name="ExpectedETag">The etag it was read with; null to remove it whatever it is.</param>
    public sealed record Delete(string Id, string? ExpectedETag) : CatalogEdit
    {
        /// <inheritdoc/>
        public override string GradeId => Id;
    }
}
