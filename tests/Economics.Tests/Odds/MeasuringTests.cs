using CableCatalog.Economics.Odds;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Odds;

public class MeasuringTests
{
    // By hand: now the second is best at 0.6 * 30 + 0.4 * (-10) = 14. Knowing the state, 30 or 0: 0.6 * 30 = 18. Worth 4.
    [Fact]
    public void It_is_worth_the_better_choice_that_it_leads_to() =>
        Assert.Equal(4, Measuring.IsWorthAtMost([[0, 0], [30, -10]], [0.6, 0.4], [0, 1]), 1e-12);

    [Fact]
    public void What_tells_nothing_is_worth_nothing() =>
        Assert.Equal(0, Measuring.IsWorthAtMost([[0, 0], [30, -10]], [0.6, 0.4], [7, 7]));

    [Fact]
    public void Where_one_option_is_always_best_knowing_is_worth_nothing() =>
        Assert.Equal(0, Measuring.IsWorthAtMost([[1, 2, 3], [5, 6, 7]], [0.2, 0.3, 0.5], [0, 1, 2]), 1e-12);

    [Fact]
    public void Knowing_more_is_never_worth_less_and_never_less_than_nothing() => Law.Holds(
        Gen.Select(Gen.Double[-100, 100].Array[6].Array[2, 5], Gen.Double[0.01, 1].Array[6]), 63, 2000, one =>
        {
            (double[][] benefits, double[] weights) = one;
            double all = weights.Sum();
            double[] chances = [.. weights.Select(weight => weight / all)];

            double some = Measuring.IsWorthAtMost(benefits, chances, [0, 0, 1, 1, 2, 2]);
            double everything = Measuring.IsWorthAtMost(benefits, chances, [0, 1, 2, 3, 4, 5]);

            Assert.InRange(some, 0, everything + 1e-9);
        });
}
