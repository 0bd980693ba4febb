using CableCatalog.Client.Reports.Plots;

namespace CableCatalog.Client.Tests.Reports;

public class AxisTests
{
    // Round steps of 1, 2 or 5 times a power of ten, by hand.
    [Theory]
    [InlineData(39.9, 8, 5, 40)]
    [InlineData(40, 8, 5, 40)]
    [InlineData(40.1, 8, 10, 50)]
    [InlineData(0.33, 8, 0.05, 0.35)]
    [InlineData(1234, 6, 500, 1500)]
    [InlineData(1, 10, 0.1, 1)]
    public void An_axis_ends_at_the_first_round_mark_that_is_not_below(double greatest, int steps, double step, double most)
    {
        Axis axis = Axis.Reaching(greatest, 0, 100, steps);

        Assert.Equal(step, axis.Step, 1e-12);
        Assert.Equal(most, axis.Most, 1e-12);
        Assert.Equal(0, axis.Marks.First());
        Assert.Equal(most, axis.Marks.Last(), 1e-12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    public void An_axis_of_nothing_reaches_to_one(double greatest) => Assert.Equal(1, Axis.Reaching(greatest, 0, 100, 5).Most);

    [Fact]
    public void Places_are_in_proportion_and_never_past_an_end()
    {
        Axis axis = Axis.Reaching(50, 200, 0, 5);

        // By hand: 200 less 200 x 20/50.
        Assert.Equal(120, axis.At(20));
        Assert.Equal(200, axis.At(-1));
        Assert.Equal(0, axis.At(51));
        Assert.Equal(0, axis.At(double.PositiveInfinity));
    }
}
