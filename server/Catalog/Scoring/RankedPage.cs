namespace CableCatalog.Catalog.Scoring;

/// <summary>Some of the best, in order.</summary>
/// <param name="Ranking">What best means.</param>
/// <param name="After">Only those that come after it; null: from the first.</param>
/// <param name="Count">How many, at least 1.</param>
internal readonly record struct RankedPage(Ranking Ranking, RankKey? After, int Count)
{
    /// <summary>Those of some scores that are on it, in order.</summary>
    public GradeScore[] Among(IEnumerable<GradeScore> scores)
    {
        (Ranking ranking, RankKey? after, int count) = this;
        return
        [
            .. scores
                .Select(score => (Score: score, Key: RankKey.Of(score, ranking)))
                .Where(one => after is not { } last || one.Key > last)
                .OrderBy(one => one.Key)
                .Take(count)
                .Select(one => one.Score),
        ];
    }
}
