using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Catalog.Routes;

/// <summary>Which least bend radii routes are proposed for, and what such a route is to make least.</summary>
public static class ProposedRadii
{
    /// <summary>The most routes that are proposed.</summary>
    public const int Most = 12;

    /// <summary>The least bend radii to propose a route for, m, the widest first: every one among the grades, or where there are
    /// more than <see cref="Most"/>, as many evenly picked from their order with the widest among them. A grade whose radius was
    /// not picked has the next wider route.</summary>
    public static IReadOnlyList<double> Of(IEnumerable<CatalogGrade> grades)
    {
        double[] all = [.. grades.Select(grade => grade.Grade.Ratings.MinBendRadiusM).Distinct().Order()];
        int count = Math.Min(all.Length, Most);
        return [.. Enumerable.Range(1, count).Select(i => all[(i * all.Length / count) - 1]).Reverse()];
    }

    /// <summary>What a route for a least bend radius is to make least: the likely effort in the worst load case, N, of the grade
    /// of middling friction among those that may be bent so far. Infinite where that locks.</summary>
    /// <param name="baseline">The present cable.</param>
    /// <param name="grades">The grades; one of them at least may be bent so far.</param>
    /// <param name="minBendRadiusM">The least bend radius, m.</param>
    public static Func<CableRoute, double> Objective(
        Baseline baseline, IEnumerable<CatalogGrade> grades, double minBendRadiusM)
    {
        CatalogGrade[] suited =
        [
            .. grades.Where(grade => grade.Grade.Ratings.MinBendRadiusM <= minBendRadiusM)
                .OrderBy(grade => grade.Grade.Bands.Friction.Likely)
                .ThenBy(grade => grade.Id, StringComparer.Ordinal),
        ];
        Setting setting = baseline.Chains[0].Setting;
        CableCoefficients middling = setting.Of(suited[(suited.Length - 1) / 2].Grade.Bands, BandEnd.Likely);
        return route => setting.Along(route).WorstN(middling);
    }
}
