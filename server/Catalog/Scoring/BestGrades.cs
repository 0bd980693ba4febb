using System.Buffers;
using System.Numerics;
using System.Runtime.Intrinsics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Scoring;

/// <summary>The best of a catalogue for an installation, without scoring all of it.</summary>
/// <remarks>Where each grade may stand is computed over the columns of <see cref="GradeBlock"/>, four at a time, to within an error that is
/// far more than that of the arithmetic; only those that may be among the best are then scored, so that the answer is that of scoring
/// every grade, to the last bit. A grade that is too near an edge to tell, such as that of its rated load, is scored at once.</remarks>
internal sealed class BestGrades
{
    // The columns give an effort to 1e-12 (a test holds it), a price to a hundredth and what is rounded off its length.
    private const double EffortError = 1e-10;
    private const double PriceError = 0.0051;
    private const double PriceErrorM = 1e-7;
    private const double CostError = 1e-9;

    // Group of what is not to be bought at all.
    private const double NotForSale = 3;

    private readonly Installation _installation;
    private readonly Baseline _baseline;
    private readonly Ranking _ranking;
    private readonly RankKey? _after;
    private readonly ChainSums _sums;
    private readonly Shortlist _ranked;
    private readonly Shortlist _toBuy = new(1);
    private readonly double _tightestRadiusM;
    private readonly double _neededTravelM;
    private readonly BuyBy _toBuyBy;
    private readonly double _limitN;
    private readonly double _presentN;
    private readonly double _presentWithoutCoreN;
    private readonly double _boundPresentN;
    private readonly Dictionary<int, GradeScore> _scores = [];

    private BestGrades(
        Installation installation,
        Baseline baseline,
        BeforeBuying before,
        GradeBlocks grades,
        Ranking ranking,
        RankKey? after,
        int count)
    {
        (_installation, _baseline, _ranking, _after) = (installation, baseline, ranking, after);
        _sums = new ChainSums(installation, baseline, grades.MostFriction);
        _ranked = new Shortlist(count);
        _tightestRadiusM = installation.Chain.Route.Bends.Select(bend => bend.RadiusM).DefaultIfEmpty(double.PositiveInfinity).Min();
        _neededTravelM = Mechanics.Chains.Effort.CableTravelM(installation.Chain) ?? 0;
        _limitN = installation.EffortLimitN ?? double.PositiveInfinity;
        _toBuyBy =
            baseline.Basis == BaselineBasis.Unexplained || BestBuy.IsDecidedBefore(baseline.Limit, baseline.IsFitToStay, before)
                ? BuyBy.Nothing
            : !baseline.IsFitToStay ? BuyBy.Fitness
            : baseline.Limit == LimitVerdict.NoLimit ? BuyBy.CostPerForce
            : BuyBy.Limit;

        // Against one that nothing explains, nothing is saved.
        bool isKnown = baseline.Basis != BaselineBasis.Unexplained;
        _presentN = isKnown ? baseline.LikelyWorstN(otherHasCore: true) : double.NegativeInfinity;
        _presentWithoutCoreN = isKnown ? baseline.LikelyWorstN(otherHasCore: false) : double.NegativeInfinity;
        _boundPresentN = double.IsFinite(_presentN) ? _presentN : 0;
    }

    /// <summary>The best and what to buy.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable.</param>
    /// <param name="before">What comes before buying.</param>
    /// <param name="grades">The grades.</param>
    /// <param name="ranking">What best means.</param>
    /// <param name="after">Only those that come after it; null: all.</param>
    /// <param name="count">How many, at least 1.</param>
    /// <param name="cancellation">Gives up between two blocks.</param>
    /// <returns>The best in order, and those that fit among which is the one to buy, if any is.</returns>
    public static (IReadOnlyList<GradeScore> Best, IReadOnlyList<GradeScore> ToBuy) Of(
        Installation installation,
        Baseline baseline,
        BeforeBuying before,
        GradeBlocks grades,
        Ranking ranking,
        RankKey? after,
        int count,
        CancellationToken cancellation)
    {
        var search = new BestGrades(installation, baseline, before, grades, ranking, after, count);
        search.LookThrough(grades, cancellation);
        GradeScore[] best =
        [
            .. search._ranked.Indices
                .Select(index => search.ScoreAt(grades, index))
                .Select(score => (Score: score, Key: RankKey.Of(score, ranking)))
                .Where(one => after is not { } last || one.Key > last)
                .OrderBy(one => one.Key)
                .Take(count)
                .Select(one => one.Score),
        ];
        GradeScore[] toBuy = [.. search._toBuy.Indices.Select(index => search.ScoreAt(grades, index)).Where(score => score.Fits)];
        return (best, toBuy);
    }

    private GradeScore ScoreAt(GradeBlocks grades, int index)
    {
        if (!_scores.TryGetValue(index, out GradeScore? score))
        {
            _scores[index] = score = GradeScore.Of(_installation, _baseline, GradeAt(grades, index));
        }

        return score;
    }

    private void LookThrough(GradeBlocks grades, CancellationToken cancellation)
    {
        double[] room = ArrayPool<double>.Shared.Rent(4 * GradeBlock.Most);
        try
        {
            for (int i = 0; i < grades.Blocks.Count; i++)
            {
                cancellation.ThrowIfCancellationRequested();
                LookThrough(grades, i, room);
            }
        }
        finally
        {
            ArrayPool<double>.Shared.Return(room);
        }
    }

    private void LookThrough(GradeBlocks grades, int blockIndex, double[] room)
    {
        GradeBlock block = grades.Blocks[blockIndex];
        Span<double> governingN = room.AsSpan(0, GradeBlock.Most);
        Span<double> pullN = room.AsSpan(GradeBlock.Most, GradeBlock.Most);
        Span<double> pushN = room.AsSpan(2 * GradeBlock.Most, GradeBlock.Most);
        Span<double> locks = room.AsSpan(3 * GradeBlock.Most, GradeBlock.Most);
        _sums.WriteForces(block, governingN, pullN, pushN, locks);
        for (int row = 0; row < block.Grades.Length; row += Vector256<double>.Count)
        {
            Standing four = StandingOf(
                block,
                row,
                Vector256.Create<double>(governingN[row..]),
                Vector256.Create<double>(pullN[row..]),
                Vector256.Create<double>(pushN[row..]),
                Vector256.Create<double>(locks[row..]));
            uint there = block.Grades.Length - row >= Vector256<double>.Count ? 0b1111u : (1u << (block.Grades.Length - row)) - 1;
            uint ranked = four.Rank.Within(_ranked) & there;
            uint toBuy = _toBuyBy == BuyBy.Nothing ? 0 : four.Buy.Within(_toBuy) & there;
            for (uint left = (ranked | toBuy | four.Unsure) & there; left != 0; left &= left - 1)
            {
                int lane = BitOperations.TrailingZeroCount(left);
                Offer(grades, (blockIndex * GradeBlock.Most) + row + lane, lane, four);
            }
        }
    }

    private void Offer(GradeBlocks grades, int index, int lane, in Standing four)
    {
        if ((four.Unsure >> lane & 1) == 0)
        {
            OfferRanked(grades, index, four.Rank.Group[lane], four.Rank.Least[lane], four.Rank.Most[lane]);
            if (_toBuyBy != BuyBy.Nothing && four.Buy.Group[lane] < NotForSale)
            {
                _toBuy.Offer(index, four.Buy.Group[lane], four.Buy.Least[lane], four.Buy.Most[lane]);
            }

            return;
        }

        GradeScore score = ScoreAt(grades, index);
        RankKey key = RankKey.Of(score, _ranking);
        OfferRanked(grades, index, key.Group, key.Value, key.Value);
        _toBuy.Offer(index, 0, double.NegativeInfinity, double.NegativeInfinity, isSure: false);
    }

    // Of those that may or may not come after the last page, none may crowd out one that does.
    private void OfferRanked(GradeBlocks grades, int index, double group, double least, double most)
    {
        if (_after is not { } last || group > last.Group || (group == last.Group && least > last.Value))
        {
            _ranked.Offer(index, group, least, most);
        }
        else if (group == last.Group && most >= last.Value)
        {
            bool isTie = least == most && string.CompareOrdinal(GradeAt(grades, index).Id, last.Id) <= 0;
            if (!isTie)
            {
                _ranked.Offer(index, group, least, most, isSure: least == most);
            }
        }
    }

    private Standing StandingOf(
        GradeBlock block,
        int row,
        Vector256<double> governingN,
        Vector256<double> pullN,
        Vector256<double> pushN,
        Vector256<double> locks)
    {
        Vector256<double> effortN = (governingN * _sums.ToGrip.Gain) + Vector256.Create(_sums.ToGrip.DragN);
        Vector256<double> shortestM = Vector256.Create(block.ShortestM, row);
        Vector256<double> stepM = Vector256.Create(block.StepM, row);
        Vector256<double> steps = Vector256.Ceiling(
            ((Vector256.Create(_installation.NeededLengthM) - shortestM) / stepM) - Vector256.Create(LengthsMade.Slack));
        Vector256<double> orderM = shortestM + (Vector256.Max(Vector256<double>.Zero, steps) * stepM);
        Vector256<double> ratedPullN = Vector256.Create(block.RatedPullN, row);
        Vector256<double> ratedPushN = Vector256.Create(block.RatedPushN, row);
        Vector256<double> fits = Vector256.AndNot(
            Vector256.GreaterThanOrEqual(Vector256.Create(_tightestRadiusM), Vector256.Create(block.LeastRadiusM, row))
                & Vector256.LessThanOrEqual(orderM, Vector256.Create(block.LongestM, row))
                & Vector256.LessThanOrEqual(Vector256.Create(_neededTravelM), Vector256.Create(block.LongestTravelM, row)),
            locks);
        Vector256<double> unsure = fits & (Nearly(pullN, ratedPullN) | Nearly(pushN, ratedPushN));
        fits &= Vector256.LessThanOrEqual(pullN, ratedPullN) & Vector256.LessThanOrEqual(pushN, ratedPushN);

        KeyBands effort = KeyBands.Within(effortN, EffortError);
        Vector256<double> perMetre = Vector256.Create(block.PricePerMetre, row);
        Vector256<double> price = Vector256.Create(block.PriceAtNoLength, row) + (perMetre * orderM);
        Vector256<double> priceError = Vector256.Create(PriceError) + (perMetre * PriceErrorM);
        var priced = new KeyBands(Vector256<double>.Zero, price - priceError, price + priceError);

        Vector256<double> coreIsKnown = Vector256.Equals(Vector256.Create(block.CoreIsKnown, row), Vector256<double>.One);
        Vector256<double> presentN = Vector256.ConditionalSelect(
            coreIsKnown, Vector256.Create(_presentN), Vector256.Create(_presentWithoutCoreN));
        Vector256<double> savedN = presentN - effortN;
        Vector256<double> savedErrorN = (effortN + Vector256.Create(_boundPresentN)) * EffortError;
        Vector256<double> saves = Vector256.GreaterThanOrEqual(savedN, Vector256.Create(Saving.LeastN));
        unsure |= fits & Vector256.LessThanOrEqual(Vector256.Abs(savedN - Vector256.Create(Saving.LeastN)), savedErrorN * 4);
        Vector256<double> hasCost = saves & Vector256.LessThan(savedN, Vector256.Create(double.PositiveInfinity));
        var costs = new KeyBands(
            Vector256<double>.Zero,
            (priced.Least / (savedN + savedErrorN)) - Vector256.Create(CostError),
            (priced.Most / (savedN - savedErrorN)) + Vector256.Create(CostError));

        KeyBands others = effort with { Group = Vector256.ConditionalSelect(fits, Vector256<double>.One, Vector256.Create(2.0)) };
        KeyBands rank = _ranking switch
        {
            Ranking.Effort => effort.Where(fits, others),
            Ranking.Price => priced.Where(fits, others),
            _ => costs.Where(fits & hasCost, others),
        };

        Vector256<double> meets = Vector256.LessThanOrEqual(effortN, Vector256.Create(_limitN));
        unsure |= fits & Nearly(effortN, Vector256.Create(_limitN));
        KeyBands buy = _toBuyBy switch
        {
            BuyBy.CostPerForce => costs.Where(hasCost, priced.In(1)).Where(saves, effort.In(2)),
            BuyBy.Limit => priced.Where(meets, effort.In(1)).Where(saves, effort.In(2)),
            BuyBy.Fitness => priced.Where(meets, effort.In(1)).Plus(
                _sums.Pushes ? Vector256.AndNot(Vector256.Create(2.0), coreIsKnown) : Vector256<double>.Zero),
            _ => default,
        };
        return new Standing(
            rank, buy.Where(fits, effort.In(NotForSale)), unsure.ExtractMostSignificantBits());
    }

    private static Vector256<double> Nearly(Vector256<double> figure, Vector256<double> edge) =>
        Vector256.LessThanOrEqual(edge * (1 - EffortError), figure) & Vector256.LessThanOrEqual(figure, edge * (1 + EffortError))
            & Vector256.LessThan(edge, Vector256.Create(double.PositiveInfinity));

    private static CatalogGrade GradeAt(GradeBlocks grades, int index) =>
        grades.Blocks[index / GradeBlock.Most].Grades[index % GradeBlock.Most];

    /// <summary>Where four grades stand.</summary>
    /// <param name="Rank">In the ranking.</param>
    /// <param name="Buy">Among those to buy: the least of all is bought.</param>
    /// <param name="Unsure">Those that are too near an edge to tell, as bits.</param>
    private readonly record struct Standing(KeyBands Rank, KeyBands Buy, uint Unsure);

    // Which of the rules of BestBuy decides. Each takes the least by group and value, as do the keys here.
    private enum BuyBy
    {
        Nothing,
        CostPerForce,
        Limit,
        Fitness,
    }
}
