using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Savings;

/// <summary>What to buy. All candidates are invented.</summary>
public class BestBuyTests
{
    private const double Infinite = double.PositiveInfinity;

    private static readonly Saving Some = new(5, 20, 30);

    private static readonly Saving Nothing = new(-10, 0, 5);

    // The cheapest that meets is b; a is cheaper and only may meet, c meets over its whole band and is dearer.
    [Fact]
    public void The_cheapest_that_likely_meets_the_limit()
    {
        Candidate[] fitting =
        [
            Candidate("a", 50, 120, Some, LimitVerdict.MayMeet),
            Candidate("b", 90, 95, Some, LimitVerdict.LikelyMeets),
            Candidate("c", 120, 70, Some, LimitVerdict.Meets),
        ];
        Advises(BuyVerdict.CheapestThatMeetsLimit, "b", fitting, LimitVerdict.Misses);
        Advises(BuyVerdict.CheapestThatMeetsLimit, "b", fitting, LimitVerdict.MayMeet);
        Advises(BuyVerdict.CheapestThatMeetsLimit, "b", [.. fitting.Reverse()], LimitVerdict.Misses);
    }

    // 90/20 = 4.5 a newton against 100/40 = 2.5 and 30/5 = 6.
    [Fact]
    public void Without_a_limit_the_least_cost_per_newton_saved() =>
        Advises(
            BuyVerdict.LeastCostPerForceSaved,
            "b",
            [
                Candidate("a", 90, 100, new Saving(10, 20, 30), LimitVerdict.NoLimit),
                Candidate("b", 100, 80, new Saving(20, 40, 50), LimitVerdict.NoLimit),
                Candidate("c", 30, 115, new Saving(1, 5, 9), LimitVerdict.NoLimit),
            ],
            LimitVerdict.NoLimit);

    // A grade that saves nothing is not the least cost per newton, however cheap it is.
    [Fact]
    public void What_saves_nothing_is_never_advised()
    {
        Candidate free = Candidate("a", 0.01m, 130, Nothing, LimitVerdict.NoLimit);
        Candidate dear = Candidate("b", 100, 100, Some, LimitVerdict.NoLimit);
        Advises(BuyVerdict.LeastCostPerForceSaved, "b", [free, dear], LimitVerdict.NoLimit);
        Advises(BuyVerdict.NoneSaves, null, [free], LimitVerdict.NoLimit);
    }

    // The present cable locks: what frees it has no figure, and the price decides.
    [Fact]
    public void Of_those_that_free_a_locked_cable_the_cheapest() =>
        Advises(
            BuyVerdict.LeastCostPerForceSaved,
            "b",
            [
                Candidate("a", 90, 50, new Saving(10, Infinite, Infinite), LimitVerdict.NoLimit),
                Candidate("b", 80, 60, new Saving(10, Infinite, Infinite), LimitVerdict.NoLimit),
            ],
            LimitVerdict.NoLimit);

    [Theory]
    [InlineData(LimitVerdict.Meets, BuyVerdict.KeepPresentCable)]
    [InlineData(LimitVerdict.LikelyMeets, BuyVerdict.KeepPresentCable)]
    [InlineData(LimitVerdict.MayMeet, BuyVerdict.CheapestThatMeetsLimit)]
    [InlineData(LimitVerdict.Misses, BuyVerdict.CheapestThatMeetsLimit)]
    [InlineData(LimitVerdict.NoLimit, BuyVerdict.LeastCostPerForceSaved)]
    public void A_present_cable_that_likely_meets_the_limit_is_kept(LimitVerdict present, BuyVerdict verdict)
    {
        Candidate[] fitting = [Candidate("a", 1, 10, Some, LimitVerdict.Meets)];
        Advises(verdict, verdict == BuyVerdict.KeepPresentCable ? null : "a", fitting, present);
    }

    [Fact]
    public void A_present_cable_that_meets_the_limit_is_kept_though_nothing_fits() =>
        Advises(BuyVerdict.KeepPresentCable, null, [], LimitVerdict.Meets);

    // None likely meets the limit: b comes closest by likely effort, at whatever price.
    [Fact]
    public void Where_none_meets_the_limit_the_one_that_comes_closest() =>
        Advises(
            BuyVerdict.NoneMeetsLimit,
            "b",
            [
                Candidate("a", 50, 120, Some, LimitVerdict.MayMeet),
                Candidate("b", 900, 110, Some, LimitVerdict.Misses),
                Candidate("c", 40, 105, Nothing, LimitVerdict.MayMeet),
            ],
            LimitVerdict.Misses);

    [Theory]
    [InlineData(LimitVerdict.NoLimit)]
    [InlineData(LimitVerdict.MayMeet)]
    [InlineData(LimitVerdict.Misses)]
    public void Where_none_saves_none_is_advised(LimitVerdict present) =>
        Advises(
            BuyVerdict.NoneSaves,
            null,
            [
                Candidate("a", 50, 120, Nothing, LimitVerdict.MayMeet),
                Candidate("b", 50, Infinite, new Saving(-Infinite, -Infinite, 0), LimitVerdict.Misses),
                Candidate("c", 50, Infinite, new Saving(double.NaN, double.NaN, double.NaN), LimitVerdict.Misses),
            ],
            present);

    [Theory]
    [InlineData(LimitVerdict.NoLimit)]
    [InlineData(LimitVerdict.MayMeet)]
    [InlineData(LimitVerdict.Misses)]
    public void Where_none_fits_none_is_advised(LimitVerdict present) => Advises(BuyVerdict.NoneFits, null, [], present);

    [Theory]
    [InlineData(LimitVerdict.NoLimit)]
    [InlineData(LimitVerdict.Misses)]
    public void Ties_go_to_the_first_id(LimitVerdict present)
    {
        Candidate[] fitting =
        [
            Candidate("b", 90, 90, Some, LimitVerdict.Meets),
            Candidate("a", 90, 90, Some, LimitVerdict.Meets),
            Candidate("A", 90.00m, 90, Some, LimitVerdict.Meets),
            Candidate("a-1", 90, 90, Some, LimitVerdict.Meets),
        ];
        Assert.Equal("A", BestBuy.Among(fitting, present, mayKeepPresent: true).Id);
        Assert.Equal("A", BestBuy.Among([.. fitting.Reverse()], present, mayKeepPresent: true).Id);
        Assert.Equal("a", BestBuy.Among([.. fitting.Where(c => c.Id != "A")], present, mayKeepPresent: true).Id);
        Candidate[] missing = [.. fitting.Select(c => c with { Limit = LimitVerdict.Misses })];
        Assert.Equal("A", BestBuy.Among(missing, present, mayKeepPresent: true).Id);
    }

    [Fact]
    public void Prices_of_two_currencies_are_not_compared()
    {
        Candidate dollars = Candidate("a", 90, 90, Some, LimitVerdict.Meets);
        Candidate euros = dollars with { Id = "b", Price = new Money(80, "EUR") };
        Assert.Throws<ArgumentException>(() => BestBuy.Among([dollars, euros], LimitVerdict.Misses, mayKeepPresent: true));
        Assert.Throws<ArgumentException>(() => BestBuy.Among([dollars, euros], LimitVerdict.NoLimit, mayKeepPresent: true));
    }

    // 2000 cases, seed 21, few enough values for ties to be common: no other candidate beats the one that is named, as found
    // by looking at every pair; and every verdict turns up.
    [Fact]
    public void No_other_candidate_beats_the_one_advised()
    {
        var seen = new HashSet<BuyVerdict>();
        Law.Holds(Gen.Select(Candidates(), Gen.OneOf(Enum.GetValues<LimitVerdict>())), 21, 2000, one =>
        {
            (Candidate[] fitting, LimitVerdict present) = one;
            BestBuy advice = BestBuy.Among(fitting, present, mayKeepPresent: true);
            seen.Add(advice.Verdict);
            bool kept = present is LimitVerdict.Meets or LimitVerdict.LikelyMeets;
            Assert.Equal(kept, advice.Verdict == BuyVerdict.KeepPresentCable);
            Candidate[] saving = [.. fitting.Where(c => c.Saving.LikelyN > 0)];
            if (kept || saving.Length == 0)
            {
                Assert.Null(advice.Id);
                return;
            }

            Candidate[] meeting = [.. saving.Where(c => c.Limit is LimitVerdict.Meets or LimitVerdict.LikelyMeets)];
            (Candidate[] among, Func<Candidate, decimal> figure, BuyVerdict verdict) =
                present == LimitVerdict.NoLimit
                    ? (saving, c => c.Price.Amount / (decimal)c.Saving.LikelyN, BuyVerdict.LeastCostPerForceSaved)
                    : meeting.Length > 0
                        ? (meeting, c => c.Price.Amount, BuyVerdict.CheapestThatMeetsLimit)
                        : (saving, (Func<Candidate, decimal>)(c => (decimal)c.LikelyEffortN), BuyVerdict.NoneMeetsLimit);
            Assert.Equal(verdict, advice.Verdict);
            Candidate named = Assert.Single(among, c => c.Id == advice.Id);
            Assert.DoesNotContain(among, other =>
                figure(other) < figure(named)
                || (figure(other) == figure(named) && string.CompareOrdinal(other.Id, named.Id) < 0));
        });

        // Whether a baseline is explained is known before any choice is made: the advice to diagnose first is not given here.
        // Nor, where the present cable may stay, is the advice to replace it, nor where nothing comes before buying, what does.
        Assert.Equal(
            Enum.GetValues<BuyVerdict>().Except(
            [
                BuyVerdict.DiagnoseFirst, BuyVerdict.ReplaceUnfitPresentCable, BuyVerdict.RepairFirst, BuyVerdict.TestFirst,
            ]),
            seen.Order());
    }

    [Theory]
    [InlineData(BeforeBuying.Repair, LimitVerdict.NoLimit, BuyVerdict.RepairFirst)]
    [InlineData(BeforeBuying.Repair, LimitVerdict.MayMeet, BuyVerdict.RepairFirst)]
    [InlineData(BeforeBuying.Test, LimitVerdict.Misses, BuyVerdict.TestFirst)]
    [InlineData(BeforeBuying.Test, LimitVerdict.LikelyMeets, BuyVerdict.KeepPresentCable)]
    [InlineData(BeforeBuying.Repair, LimitVerdict.Meets, BuyVerdict.KeepPresentCable)]
    public void What_comes_before_buying_is_advised_unless_the_present_cable_may_be_kept(
        BeforeBuying before, LimitVerdict present, BuyVerdict verdict)
    {
        Candidate[] fitting = [Candidate("a", 90, 80, Some, LimitVerdict.Meets)];
        Assert.Equal(new BestBuy(verdict, null), BestBuy.Among(fitting, present, mayKeepPresent: true, before));
        Assert.Equal(new BestBuy(verdict, null), BestBuy.Among([], present, mayKeepPresent: true, before));
    }

    [Theory]
    [InlineData(BeforeBuying.Repair)]
    [InlineData(BeforeBuying.Test)]
    public void A_cable_that_is_not_fit_to_stay_is_replaced_whatever_is_at_fault(BeforeBuying before) =>
        Assert.Equal(
            new BestBuy(BuyVerdict.ReplaceUnfitPresentCable, "a"),
            BestBuy.Among(
                [Candidate("a", 90, 80, Some, LimitVerdict.Meets)], LimitVerdict.Misses, mayKeepPresent: false, before));

    // However little it takes and whatever it would cost: a cable that may lock does not stay.
    [Theory]
    [InlineData(LimitVerdict.Meets, "dear")] // the only one that meets the limit, though it saves nothing
    [InlineData(LimitVerdict.Misses, "dear")]
    [InlineData(LimitVerdict.NoLimit, "cheap")]
    public void A_present_cable_that_is_not_fit_to_stay_is_replaced(LimitVerdict present, string id)
    {
        var nothing = new Saving(-3, -2, -1);
        Candidate[] fitting =
        [
            Candidate("dear", 90, 80, nothing, present == LimitVerdict.NoLimit ? LimitVerdict.NoLimit : LimitVerdict.Meets),
            Candidate("cheap", 30, 120, nothing, present == LimitVerdict.NoLimit ? LimitVerdict.NoLimit : LimitVerdict.Misses),
        ];
        Assert.Equal(
            new BestBuy(BuyVerdict.ReplaceUnfitPresentCable, id), BestBuy.Among(fitting, present, mayKeepPresent: false));
        Assert.Equal(new BestBuy(BuyVerdict.NoneFits, null), BestBuy.Among([], present, mayKeepPresent: false));
    }

    [Fact]
    public void A_cable_that_may_lock_is_not_replaced_by_one_of_which_that_is_unknown()
    {
        Candidate unknown = Candidate("cheap", 30, 80, Some, LimitVerdict.Meets) with { MayLockUnseen = true };
        Candidate known = Candidate("dear", 90, 80, Some, LimitVerdict.Meets);
        Assert.Equal("dear", BestBuy.Among([unknown, known], LimitVerdict.Misses, mayKeepPresent: false).Id);
        Assert.Equal("cheap", BestBuy.Among([unknown], LimitVerdict.Misses, mayKeepPresent: false).Id);
        Assert.Equal("cheap", BestBuy.Among([unknown, known], LimitVerdict.Misses, mayKeepPresent: true).Id);
    }

    private static Gen<Candidate[]> Candidates() =>
        Gen.Select(Gen.Int[1, 5], Gen.Int[-2, 4], Gen.OneOf(Enum.GetValues<LimitVerdict>()), (price, saved, limit) =>
                Candidate("?", price * 16, 100 - (16 * saved), new Saving((16 * saved) - 1, 16 * saved, (16 * saved) + 1), limit))
            .Array[0, 6]
            .SelectMany(candidates => Gen.Shuffle(Enumerable.Range(0, candidates.Length).ToArray())
                .Select(ids => candidates.Zip(ids, (c, id) => c with { Id = $"grade-{id}" }).ToArray()));

    private static void Advises(BuyVerdict verdict, string? id, Candidate[] fitting, LimitVerdict present) =>
        Assert.Equal(new BestBuy(verdict, id), BestBuy.Among(fitting, present, mayKeepPresent: true));

    private static Candidate Candidate(string id, decimal price, double effortN, Saving saving, LimitVerdict limit) =>
        new(id, new Money(price, "USD"), effortN, saving, limit);
}
