using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Grades;

/// <summary>How a grade's coefficients are known.</summary>
public enum CoefficientBasis
{
    /// <summary>Nobody measured them.</summary>
    Assumed,

    /// <summary>Somebody measured them.</summary>
    Measured,
}

/// <summary>A generic grade of push-pull cable.</summary>
/// <param name="Id">See <see cref="GradeId"/>.</param>
/// <param name="DisplayName">What people call it.</param>
/// <param name="CoreText">Plain words for the core.</param>
/// <param name="LinerText">Plain words for the liner.</param>
/// <param name="CoefficientBasis">How the coefficients are known.</param>
/// <param name="Bands">Friction, drags and core.</param>
/// <param name="AxialStiffnessN">EA of the assembly, N, where known.</param>
/// <param name="Ratings">What it must not be asked for.</param>
/// <param name="Price">What it costs.</param>
public sealed record Grade(
    string Id,
    string DisplayName,
    string CoreText,
    string LinerText,
    CoefficientBasis CoefficientBasis,
    CableBands Bands,
    double? AxialStiffnessN,
    CableRatings Ratings,
    PriceRule Price);

/// <summary>A grade as the catalogue holds it.</summary>
/// <param name="Grade">The grade.</param>
/// <param name="Revision">The catalogue's revision at which it was last written.</param>
/// <param name="Created">When it was created, UTC.</param>
/// <param name="Updated">When it was last changed, UTC.</param>
public sealed record CatalogGrade(Grade Grade, long Revision, DateTimeOffset Created, DateTimeOffset Updated)
{
    /// <summary>Its id.</summary>
    public string Id => Grade.Id;

    /// <summary>Changes whenever the grade changes, and is never used again in the same catalogue, not even after a
    /// removal.</summary>
    public string ETag => CatalogETag.Of(Revision, Updated);
}
