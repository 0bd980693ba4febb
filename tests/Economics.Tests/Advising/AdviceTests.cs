using CableCatalog.Economics.Advising;

namespace CableCatalog.Economics.Tests.Advising;

/// <summary>Advice in cases made so that the answer is known. All options are invented; costs in one currency, savings in N.</summary>
public class AdviceTests
{
    private const string Test = "weight test";

    private static readonly double[] Half = [0.5, 0.5];

    private static readonly Question<string>[] Questions = [new(Test, [0, 1])];

    // A premium that saves 40 N more for 60 more, in either state: 1.50 a newton, and a newton is worth 3.
    [Fact]
    public void A_premium_that_is_clearly_worth_it_is_advised()
    {
        Advice<string> advice = Advise([Keep(), Sure(100, 60), Sure(160, 100)], new Wish(false, 0.8, 3m));

        Assert.Equal((AdviceVerdict.Take, 2), (advice.Verdict, advice.Option));
        AnswerWorth<string> answer = Assert.Single(advice.Answers);
        Assert.Equal((0, 0), (answer.AtMost, answer.ChangesChoice));
    }

    // The same premium saves 5 N more for 60 more: 12 a newton, and a newton is worth 3.
    [Fact]
    public void A_premium_that_is_clearly_not_worth_it_is_not()
    {
        Advice<string> advice = Advise([Keep(), Sure(100, 60), Sure(160, 65)], new Wish(false, 0.8, 3m));

        Assert.Equal((AdviceVerdict.Take, 1), (advice.Verdict, advice.Option));
        Assert.Equal(
            [(0, 0.0), (1, 100.0 / 60), (2, 12.0)], advice.BetterFrom.Select(one => (one.Option, one.FromValuePerNewton)));
    }

    // Either the present cable is bad, and a new one saves 100 N worth 300 for 200; or it is good, and saves nothing. Now: 0.5 * 300 - 200
    // = -50, so keep. Knowing: 0.5 * 100 = 50 on average.
    [Fact]
    public void Where_a_test_decides_it_comes_first()
    {
        Prospect gamble = new(200, 50, 1, [100, 0], [1, 1]);

        Advice<string> advice = Advise([Keep(), gamble], new Wish(false, 0.8, 3m));

        Assert.Equal(AdviceVerdict.MeasureFirst, advice.Verdict);
        Assert.Equal(0, advice.Option);
        Assert.Equal(Test, advice.WorthAsking!.Name);
        Assert.Equal(50, advice.WorthAsking.AtMost!.Value, 1e-9);
        Assert.Equal(0.5, advice.WorthAsking.ChangesChoice);
    }

    [Theory]
    [InlineData(49, AdviceVerdict.MeasureFirst)]
    [InlineData(51, AdviceVerdict.Keep)]
    public void A_test_that_costs_more_than_it_is_worth_does_not(int testCost, AdviceVerdict expected)
    {
        Prospect gamble = new(200, 50, 1, [100, 0], [1, 1]);

        Assert.Equal(expected, Advise([Keep(), gamble], new Wish(false, 0.8, 3m), testCost).Verdict);
    }

    // With a limit alone: 200 is sure enough as things stand. In half the cases keeping would do, which a test would tell: 100 less is
    // spent on average.
    [Fact]
    public void What_a_test_may_spare_is_counted_where_a_limit_alone_decides()
    {
        Prospect keep = new(0, 0, 0.5, [0, 0], [1, 0]);
        Prospect grade = new(200, 50, 0.95, [50, 50], [1, 0.9]);

        Advice<string> advice = Advise([keep, grade], new Wish(true, 0.8, null));

        Assert.Equal((AdviceVerdict.MeasureFirst, 1), (advice.Verdict, advice.Option));
        Assert.Equal(100, Assert.Single(advice.Answers).AtMost);
    }

    // Nothing is 80 % sure as things stand. In half the cases the grade is, and a test tells which.
    [Fact]
    public void Where_none_is_sure_enough_a_test_that_may_show_that_one_is_comes_first()
    {
        Prospect grade = new(200, 50, 0.5, [50, 50], [1, 0]);

        Assert.Equal(
            (AdviceVerdict.MeasureFirst, 1), Verdict(Advise([Keep(meets: 0), grade], new Wish(true, 0.8, null))));
        Assert.Equal(
            (AdviceVerdict.NoneMeetsLimit, 1),
            Verdict(Advise([Keep(meets: 0), new Prospect(200, 50, 0.5, [50, 50], [0.5, 0.5])], new Wish(true, 0.8, null))));
    }

    [Fact]
    public void Without_limit_and_value_nothing_is_advised_but_the_steps_are_told()
    {
        Advice<string> advice = Advise([Keep(), Sure(100, 50)], new Wish(false, 0.8, null));

        Assert.Equal((AdviceVerdict.NothingAsked, null), (advice.Verdict, advice.Option));
        Assert.Equal([0, 1], advice.BetterFrom.Select(one => one.Option));
    }

    [Fact]
    public void Where_nothing_can_be_taken_that_is_said() =>
        Assert.Equal(AdviceVerdict.NothingFits, Advise([], new Wish(true, 0.8, null)).Verdict);

    [Fact]
    public void What_is_there_is_kept_where_it_is_sure_enough() => Assert.Equal(
        (AdviceVerdict.Keep, 0), Verdict(Advise([Keep(meets: 1), Sure(100, 50)], new Wish(true, 0.8, null))));

    private static (AdviceVerdict Verdict, int? Option) Verdict(Advice<string> advice) => (advice.Verdict, advice.Option);

    private static Advice<string> Advise(Prospect[] options, Wish wish, decimal? testCost = null) =>
        Advice.Of(options, options.Length > 0 ? 0 : null, wish, Half, Questions, testCost);

    private static Prospect Keep(double meets = 1) => new(0, 0, meets, [0, 0], [meets, meets]);

    private static Prospect Sure(decimal cost, double savedN) => new(cost, savedN, 1, [savedN, savedN], [1, 1]);
}
