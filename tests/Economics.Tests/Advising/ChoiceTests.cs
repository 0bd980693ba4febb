using CableCatalog.Economics.Advising;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Advising;

/// <summary>The rule of choice. All options are invented.</summary>
public class ChoiceTests
{
    private static readonly Eligible[] Options = [new(0, 0, 0), new(90, 20, 0.7), new(140, 30, 0.9), new(300, 38, 1)];

    [Theory]
    [InlineData(0.6, 1)]
    [InlineData(0.7, 1)]
    [InlineData(0.75, 2)]
    [InlineData(0.95, 3)]
    public void With_a_limit_alone_the_cheapest_that_is_sure_enough(double confidence, int expected) =>
        Assert.Equal(expected, Choice.Among(Options, new Wish(true, confidence, null)));

    // Steps: 90 for 20 at 4.5 each, 50 for 10 at 5, 160 for 8 at 20.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(4, 0)]
    [InlineData(4.8, 1)]
    [InlineData(6, 2)]
    [InlineData(19, 2)]
    [InlineData(21, 3)]
    public void With_a_value_alone_every_step_that_is_worth_it(double value, int expected) =>
        Assert.Equal(expected, Choice.Among(Options, new Wish(false, 0.8, (decimal)value)));

    [Theory]
    [InlineData(1, 2)]
    [InlineData(25, 3)]
    public void With_both_the_best_of_those_that_are_sure_enough(double value, int expected) =>
        Assert.Equal(expected, Choice.Among(Options, new Wish(true, 0.8, (decimal)value)));

    [Fact]
    public void Without_either_nothing_is_chosen() => Assert.Null(Choice.Among(Options, new Wish(false, 0.8, null)));

    [Fact]
    public void Where_none_is_sure_enough_none_is_chosen_and_the_surest_is_nearest()
    {
        Eligible[] unsure = [new(0, 0, 0), new(90, 20, 0.4), new(140, 30, 0.5), new(120, 30, 0.5)];

        Assert.Null(Choice.Among(unsure, new Wish(true, 0.8, null)));
        Assert.Equal(3, Choice.Nearest(unsure));
        Assert.Null(Choice.Nearest([]));
    }

    /// <summary>With a value alone the choice is the most of value * saved - cost: brute force.</summary>
    [Fact]
    public void No_option_has_more_net_benefit_than_the_chosen() => Law.Holds(
        Gen.Select(
            Gen.Select(Gen.Decimal[0, 500], Gen.Double[-20, 150], (cost, saved) => new Eligible(cost, saved, 1)).Array[1, 12],
            Gen.Decimal[0, 30]),
        70,
        2000,
        one =>
        {
            (Eligible[] options, decimal value) = one;
            Eligible chosen = options[Choice.Among(options, new Wish(false, 0.8, value))!.Value];
            Assert.All(options, other => Assert.True(
                ((double)value * chosen.SavedN) - (double)chosen.Cost >= ((double)value * other.SavedN) - (double)other.Cost - 1e-9));
        });
}
