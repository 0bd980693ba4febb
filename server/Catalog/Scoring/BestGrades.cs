using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Scoring;

/// <summary>The best of a catalogue for an installation, without scoring all of it.</summary>
/// <remarks>Where each grade may stand is computed over the columns of <see cref="GradeBlock"/>, eight at a time, to within an error that is
/// far more than that of the arithmetic; only those that may be among the best are then scored, so that the answer is that of scoring
/// every grade, to the last bit. One that may be among them and is too near an edge to tell, such as that of its rated load, is scored at
/// once.</remarks>
internal sealed class BestGrades
{
    // The columns give an effort to 1e-12 (a test holds it), a price to a hundredth and what is rounded off its length.
    private const double EffortError = 1e-10;
    private const double PriceError = 0.0051;
    private const double PriceErrorM = 1e-7;
    private const double CostError = 1e-9;

    // Group of what is not to be bought at all.
    private const double NotForSale = 9;

    // One at a time on a thread: the room is used again.
    private static readonly ThreadLocal<BlockForces?> Room = new();

    private readonly Installation _installation;
    private readonly Baseline _baseline;
    private readonly RankedPage _page;
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
        RankedPage page)
    {
        (_installation, _baseline, _page) = (installation, baseline, page);
        _sums = new ChainSums(installation, baseline, grades.MostFriction);
        _ranked = new Shortlist(page.Count);
        _tightestRadiusM = installation.Chain.Route.TightestRadiusM;
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
    /// <param name="page">Which of them.</param>
    /// <param name="cancellation">Gives up between two blocks.</param>
    /// <returns>The best in order, and those that fit among which is the one to buy, if any is.</returns>
    public static (IReadOnlyList<GradeScore> Best, IReadOnlyList<GradeScore> ToBuy) Of(
        Installation installation,
        Baseline baseline,
        BeforeBuying before,
        GradeBlocks grades,
        RankedPage page,
        CancellationToken cancellation)
    {
        if (!ChainSums.CanSum(installation, baseline, grades.MostFriction))
        {
            return OfAll(installation, baseline, grades, page, cancellation);
        }

        var search = new BestGrades(installation, baseline, before, grades, page);
        search.LookThrough(grades, cancellation);
        return (
            page.Among(search._ranked.Indices.Select(index => search.ScoreAt(grades, index))),
            [.. search._toBuy.Indices.Select(index => search.ScoreAt(grades, index)).Where(score => score.Fits)]);
    }

    // With more friction and angle than any sum holds, which a diagnosis may think of, all are scored.
    private static (IReadOnlyList<GradeScore> Best, IReadOnlyList<GradeScore> ToBuy) OfAll(
        Installation installation,
        Baseline baseline,
        GradeBlocks grades,
        RankedPage page,
        CancellationToken cancellation)
    {
        GradeScore[] all =
        [
            .. grades.Grades.Select(grade =>
            {
                cancellation.ThrowIfCancellationRequested();
                return GradeScore.Of(installation, baseline, grade);
            }),
        ];
        return (page.Among(all), [.. all.Where(score => score.Fits)]);
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
        BlockForces forces = Room.Value ??= new BlockForces();
        for (int i = 0; i < grades.Blocks.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            LookThrough(grades, i, forces);
        }
    }

    // Compiled fully at once: what the runtime makes of it by what it has seen is slower in the service, by a tenth of the whole wait.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void LookThrough(GradeBlocks grades, int blockIndex, BlockForces forces)
    {
        GradeBlock block = grades.Blocks[blockIndex];
        _sums.WriteForces(block, forces);
        for (int row = 0; row < block.Grades.Length; row += Vector512<double>.Count)
        {
            uint there = block.Grades.Length - row >= Vector512<double>.Count ? uint.MaxValue : (1u << (block.Grades.Length - row)) - 1;

            // What would not be among the best if it fitted is not asked whether it does.
            uint asked = Asked(IfAllFit(block, row, forces)) & there;
            if (asked == 0)
            {
                continue;
            }

            Standing eight = StandingOf(block, row, forces);
            asked &= Asked(eight);

            // Their keys are of the least that they can take: only one that may then be among the best is worth a march.
            uint untold = asked & (uint)Vector512.Create(forces.Untold, row).ExtractMostSignificantBits();
            if (untold != 0)
            {
                for (uint left = untold; left != 0; left &= left - 1)
                {
                    _sums.Tell(block, row + BitOperations.TrailingZeroCount(left), forces);
                }

                eight = StandingOf(block, row, forces);
                asked &= Asked(eight);
            }

            for (; asked != 0; asked &= asked - 1)
            {
                int lane = BitOperations.TrailingZeroCount(asked);
                Offer(grades, (blockIndex * GradeBlock.Most) + row + lane, lane, eight);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private uint Asked(in Standing eight) =>
        eight.Rank.Within(_ranked) | (_toBuyBy == BuyBy.Nothing ? 0 : eight.Buy.Within(_toBuy)) | eight.Unsure;

    private void Offer(GradeBlocks grades, int index, int lane, in Standing eight)
    {
        if ((eight.Unsure >> lane & 1) == 0)
        {
            (double group, double least, double most) = (eight.Rank.Group[lane], eight.Rank.Least[lane], eight.Rank.Most[lane]);
            if (_page.Ranking == Ranking.Price && group == 0)
            {
                least = most = PriceOf(grades, index);
            }

            OfferRanked(grades, index, group, least, most);
            (group, least, most) = (eight.Buy.Group[lane], eight.Buy.Least[lane], eight.Buy.Most[lane]);
            if (_toBuyBy == BuyBy.Nothing || group >= NotForSale)
            {
                return;
            }

            bool isByPrice = _toBuyBy switch
            {
                BuyBy.CostPerForce => group == 1,
                BuyBy.Limit => group == 0,
                _ => group is 0 or 2,
            };
            if (isByPrice)
            {
                least = most = PriceOf(grades, index);
            }

            _toBuy.Offer(index, group, least, most);
            return;
        }

        GradeScore score = ScoreAt(grades, index);
        RankKey key = RankKey.Of(score, _page.Ranking);
        OfferRanked(grades, index, key.Group, key.Value, key.Value);
        if (_toBuyBy != BuyBy.Nothing && score.Fits)
        {
            _toBuy.Offer(index, 0, double.NegativeInfinity, double.NegativeInfinity, isSure: false);
        }
    }

    // To the cent: many grades may have one price, and then ids decide.
    private double PriceOf(GradeBlocks grades, int index)
    {
        Grade grade = GradeAt(grades, index).Grade;
        return (double)grade.Price.For(grade.Ratings.LengthsMade.OrderLengthM(_installation.NeededLengthM)!.Value).Amount;
    }

    // Of those that may or may not come after the last page, none may crowd out one that does.
    private void OfferRanked(GradeBlocks grades, int index, double group, double least, double most)
    {
        if (_page.After is not { } last || group > last.Group || (group == last.Group && least > last.Value))
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

    // Seldom asked: kept out of the loop.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private Standing StandingOf(GradeBlock block, int row, BlockForces forces) =>
        WhereFit(IfAllFit(block, row, forces), block, row, forces);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Standing IfAllFit(GradeBlock block, int row, BlockForces forces)
    {
        Vector512<double> effortN = EffortN(forces, row);
        KeyBands effort = KeyBands.Within(effortN, EffortError);
        Vector512<double> perMetre = Vector512.Create(block.PricePerMetre, row);
        Vector512<double> price = Vector512.Create(block.PriceAtNoLength, row) + (perMetre * OrderM(block, row));
        Vector512<double> priceError = Vector512.Create(PriceError) + (perMetre * PriceErrorM);
        var priced = new KeyBands(Vector512<double>.Zero, price - priceError, price + priceError);

        Vector512<double> coreIsKnown = Vector512.Equals(Vector512.Create(block.CoreIsKnown, row), Vector512<double>.One);
        Vector512<double> presentN = Vector512.ConditionalSelect(
            coreIsKnown, Vector512.Create(_presentN), Vector512.Create(_presentWithoutCoreN));
        Vector512<double> savedN = presentN - effortN;
        Vector512<double> savedErrorN = (effortN + Vector512.Create(_boundPresentN)) * EffortError;
        Vector512<double> saves = Vector512.GreaterThanOrEqual(savedN, Vector512.Create(Saving.LeastN));
        bool savingDecides = _page.Ranking == Ranking.CostPerForceSaved || _toBuyBy is BuyBy.CostPerForce or BuyBy.Limit;
        Vector512<double> unsure = Mask(savingDecides) & Vector512.LessThanOrEqual(Vector512.Abs(savedN - Vector512.Create(Saving.LeastN)), savedErrorN * 4);
        Vector512<double> hasCost = saves & Vector512.LessThan(savedN, Vector512.Create(double.PositiveInfinity));
        var costs = new KeyBands(
            Vector512<double>.Zero,
            (priced.Least / (savedN + savedErrorN)) - Vector512.Create(CostError),
            (priced.Most / (savedN - savedErrorN)) + Vector512.Create(CostError));

        KeyBands rank = _page.Ranking switch
        {
            Ranking.Effort => effort,
            Ranking.Price => priced,
            _ => costs.Where(hasCost, effort.In(1)),
        };

        Vector512<double> meets = Vector512.LessThanOrEqual(effortN, Vector512.Create(_limitN));
        unsure |= Mask(_toBuyBy is BuyBy.Limit or BuyBy.Fitness) & Nearly(effortN, Vector512.Create(_limitN));
        KeyBands buy = _toBuyBy switch
        {
            BuyBy.CostPerForce => costs.Where(hasCost, priced.In(1)).Where(saves, effort.In(2)),
            BuyBy.Limit => priced.Where(meets, effort.In(1)).Where(saves, effort.In(2)),
            BuyBy.Fitness => priced.Where(meets, effort.In(1)).Plus(
                _sums.Pushes ? Vector512.AndNot(Vector512.Create(2.0), coreIsKnown) : Vector512<double>.Zero),
            _ => default,
        };
        return new Standing(rank, buy, (uint)unsure.ExtractMostSignificantBits());
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Standing WhereFit(in Standing eight, GradeBlock block, int row, BlockForces forces)
    {
        Vector512<double> pullN = Vector512.Create(forces.PullN, row);
        Vector512<double> pushN = Vector512.Create(forces.PushN, row);
        Vector512<double> ratedPullN = Vector512.Create(block.RatedPullN, row);
        Vector512<double> ratedPushN = Vector512.Create(block.RatedPushN, row);
        Vector512<double> fits = Vector512.AndNot(
            Vector512.GreaterThanOrEqual(Vector512.Create(_tightestRadiusM), Vector512.Create(block.LeastRadiusM, row))
                & Vector512.LessThanOrEqual(OrderM(block, row), Vector512.Create(block.LongestM, row))
                & Vector512.LessThanOrEqual(Vector512.Create(_neededTravelM), Vector512.Create(block.LongestTravelM, row)),
            Vector512.Create(forces.Locks, row));
        Vector512<double> nearlyRated = fits & (Nearly(pullN, ratedPullN) | Nearly(pushN, ratedPushN));
        fits &= Vector512.LessThanOrEqual(pullN, ratedPullN) & Vector512.LessThanOrEqual(pushN, ratedPushN);
        KeyBands effort = KeyBands.Within(EffortN(forces, row), EffortError);
        return new Standing(
            eight.Rank.Where(fits, effort.In(2)),
            eight.Buy.Where(fits, effort.In(NotForSale)),
            (eight.Unsure & (uint)fits.ExtractMostSignificantBits()) | (uint)nearlyRated.ExtractMostSignificantBits());
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector512<double> EffortN(BlockForces forces, int row) =>
        (Vector512.Create(forces.GoverningN, row) * _sums.ToGrip.Gain) + Vector512.Create(_sums.ToGrip.DragN);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector512<double> OrderM(GradeBlock block, int row)
    {
        Vector512<double> shortestM = Vector512.Create(block.ShortestM, row);
        Vector512<double> stepM = Vector512.Create(block.StepM, row);
        Vector512<double> steps = Vector512.Ceiling(
            ((Vector512.Create(_installation.NeededLengthM) - shortestM) / stepM) - Vector512.Create(LengthsMade.Slack));
        return shortestM + (Vector512.Max(Vector512<double>.Zero, steps) * stepM);
    }

    private static Vector512<double> Mask(bool set) => set ? Vector512<double>.AllBitsSet : Vector512<double>.Zero;

    private static Vector512<double> Nearly(Vector512<double> figure, Vector512<double> edge) =>
        Vector512.LessThanOrEqual(edge * (1 - EffortError), figure) & Vector512.LessThanOrEqual(figure, edge * (1 + EffortError))
            & Vector512.LessThan(edge, Vector512.Create(double.PositiveInfinity));

    private static CatalogGrade GradeAt(GradeBlocks grades, int index) =>
        grades.Blocks[index / GradeBlock.Most].Grades[index % GradeBlock.Most];

    /// <summary>Where eight grades stand.</summary>
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
