using CableCatalog.Economics.Odds;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Odds;

public class MeasuringTests
{
    // By hand: now the second is best at 0.6 * 30 + 0.4 * (-10) = 14. Knowing the state, 30 or 0: 0.6 * 30 = 18. Worth 4.
    [Fact]
    public void It_is_worth_the_better_choice_that_it_leads_to() =>
        Assert.Equal(4, Worth([[0, 0], [30, -10]], [0.6, 0.4], [0, 1]), 1e-12);

    [Fact]
    public void What_tells_nothing_is_worth_nothing() =>
        Assert.Equal(0, Worth([[0, 0], [30, -10]], [0.6, 0.4], [7, 7]));

    [Fact]
    public void Where_one_option_is_always_best_knowing_is_worth_nothing() =>
        Assert.Equal(0, Worth([[1, 2, 3], [5, 6, 7]], [0.2, 0.3, 0.5], [0, 1, 2]), 1e-12);

    // A choice that is bound to the dearer in the second state: only the first, where the cheaper will do, gains anything. 0.6 * 30.
    [Fact]
    public void An_answer_after_which_one_spends_more_takes_nothing_off() => Assert.Equal(
        18,
        Measuring.IsWorthAtMost(
            [0.6, 0.4],
            [0, 1],
            states => states.Count == 2 ? 100 : states[0] == 0 ? 70 : 150,
            (cost, _) => -(double)cost),
        1e-12);

    /// <summary>The expected value of partial perfect information as it is defined: the best of each answer less the best of all.</summary>
    [Fact]
    public void Where_the_best_is_chosen_it_is_the_value_of_partial_perfect_information() => Law.Holds(Cases, 64, 2000, one =>
    {
        (double[][] benefits, double[] chances) = one;
        int[] learnt = [0, 0, 1, 1, 2, 2];

        double defined = learnt.Distinct().Sum(answer => benefits.Max(of =>
            Enumerable.Range(0, 6).Where(state => learnt[state] == answer).Sum(state => chances[state] * of[state])))
            - benefits.Max(of => of.Zip(chances, (benefit, chance) => benefit * chance).Sum());

        Assert.Equal(defined, Worth(benefits, chances, learnt), 1e-9);
    });

    [Fact]
    public void Knowing_more_is_never_worth_less_and_never_less_than_nothing() => Law.Holds(Cases, 63, 2000, one =>
    {
        (double[][] benefits, double[] chances) = one;

        double some = Worth(benefits, chances, [0, 0, 1, 1, 2, 2]);
        double everything = Worth(benefits, chances, [0, 1, 2, 3, 4, 5]);

        Assert.InRange(some, 0, everything + 1e-9);
    });

    private static Gen<(double[][] Benefits, double[] Chances)> Cases => Gen.Select(
        Gen.Double[-100, 100].Array[6].Array[2, 5],
        Gen.Double[0.01, 1].Array[6].Select(weights => weights.Select(weight => weight / weights.Sum()).ToArray()));

    private static double Worth(double[][] benefits, double[] chances, int[] learnt)
    {
        return Measuring.IsWorthAtMost(
            chances, learnt, states => Enumerable.Range(0, benefits.Length).MaxBy(i => Mean(i, states)), Mean);

        double Mean(int option, IReadOnlyList<int> states) =>
            states.Sum(state => chances[state] * benefits[option][state]) / states.Sum(state => chances[state]);
    }
}
