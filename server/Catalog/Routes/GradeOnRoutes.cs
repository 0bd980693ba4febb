using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Catalog.Routes;

/// <summary>A grade on every route of a study.</summary>
/// <param name="Grade">The grade.</param>
/// <param name="Scores">Its scores, one a route, in their order.</param>
/// <param name="LeastEffortN">Its effort in the worst load case that no route can beat, N; null where the ends are not known in
/// space.</param>
public sealed record GradeOnRoutes(CatalogGrade Grade, IReadOnlyList<GradeScore> Scores, ForceBand? LeastEffortN)
{
    /// <summary>The route, from 0, on which it likely takes the least effort of those that it fits; null where it fits
    /// none.</summary>
    public int? BestRoute => Scores.Any(score => score.Fits)
        ? Scores.Index().Where(score => score.Item.Fits).MinBy(score => score.Item.WorstEffortN.LikelyN).Index
        : null;

    /// <summary>Where it stands: by its likely effort on its best route; grades that fit none last.</summary>
    public RankKey Key => BestRoute is { } best
        ? new RankKey(0, Scores[best].WorstEffortN.LikelyN, Grade.Id)
        : new RankKey(1, Scores.Min(score => score.WorstEffortN.LikelyN), Grade.Id);
}
