using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;

namespace CableCatalog.Economics.Tests.Savings;

public class SavingTests
{
    private const double Infinite = double.PositiveInfinity;

    // Each place at 0, just above and just below, and at the infinities that locking makes.
    [Theory]
    [InlineData(1, 2, 3, SavingVerdict.Saves)]
    [InlineData(1e-6, 2, 3, SavingVerdict.Saves)]
    [InlineData(0, 2, 3, SavingVerdict.MaySaveNothing)]
    [InlineData(-1e-6, 2, 3, SavingVerdict.MaySaveNothing)]
    [InlineData(-5, 1e-6, 3, SavingVerdict.MaySaveNothing)]
    [InlineData(-5, 0.99e-6, 3, SavingVerdict.SavesNothing)] // less than a micronewton is rounding
    [InlineData(-5, 0, 3, SavingVerdict.SavesNothing)]
    [InlineData(-5, -1e-6, 3, SavingVerdict.SavesNothing)]
    [InlineData(-5, -2, -1, SavingVerdict.SavesNothing)]
    [InlineData(-Infinite, 2, 3, SavingVerdict.MaySaveNothing)] // the option may lock
    [InlineData(1, 2, Infinite, SavingVerdict.Saves)] // the baseline may lock
    [InlineData(1, double.MaxValue, Infinite, SavingVerdict.Saves)]
    [InlineData(1, Infinite, Infinite, SavingVerdict.FreesALockedCable)]
    [InlineData(double.NaN, Infinite, Infinite, SavingVerdict.FreesALockedCable)] // both may lock at one end
    [InlineData(-Infinite, Infinite, Infinite, SavingVerdict.FreesALockedCable)]
    [InlineData(-Infinite, -Infinite, 3, SavingVerdict.SavesNothing)] // the option locks
    [InlineData(double.NaN, double.NaN, double.NaN, SavingVerdict.SavesNothing)] // both lock
    public void A_saving_is_judged_by_its_likely_value_and_its_low_end(
        double lowN, double likelyN, double highN, SavingVerdict verdict) =>
        Assert.Equal(verdict, new Saving(lowN, likelyN, highN).Verdict);

    // By hand: 120/37.5 = 3.2; 100/3 = 33.333333333 to nine decimals; 200/3 = 66.666666667; a half in the tenth decimal goes up:
    // 0.000000001/2 = 0.0000000005.
    [Theory]
    [InlineData("120", 37.5, "3.2")]
    [InlineData("100", 3, "33.333333333")]
    [InlineData("200", 3, "66.666666667")]
    [InlineData("0.000000001", 2, "0.000000001")]
    [InlineData("0", 10, "0")]
    [InlineData("5", 0.000001, "5000000")]
    public void Cost_per_newton_by_hand(string cost, double likelyN, string each) =>
        Assert.Equal(
            new Money(decimal.Parse(each), "USD"),
            new Saving(-1, likelyN, 1000).CostPerNewton(new Money(decimal.Parse(cost), "USD")));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(0.0000009999)]
    [InlineData(double.Epsilon)]
    [InlineData(double.NaN)]
    [InlineData(Infinite)]
    [InlineData(-Infinite)]
    public void Without_a_saving_to_speak_of_there_is_no_cost_per_newton(double likelyN) =>
        Assert.Null(new Saving(-1, likelyN, Infinite).CostPerNewton(new Money(100, "USD")));

    // A cable a hair short of locking takes any force at all; the figure is nought to nine decimals, not a failure.
    [Theory]
    [InlineData(1e12)]
    [InlineData(1e28)]
    [InlineData(7.9e28)]
    [InlineData(8e28)]
    [InlineData(1e74)]
    [InlineData(double.MaxValue)]
    public void A_huge_saving_costs_nothing_a_newton(double likelyN) =>
        Assert.Equal(new Money(0, "USD"), new Saving(1, likelyN, Infinite).CostPerNewton(new Money(100, "USD")));
}
