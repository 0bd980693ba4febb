using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Constructed readings of which the shape is known.</summary>
public class ShapeTests
{
    // Over what only held, or under what only moved, a line always passes.
    [Fact]
    public void Readings_that_only_held_or_only_moved_do_not_tell()
    {
        WeightReading[] held = [new(0, 10, null), new(5, 30, null), new(10, 20, null)];
        WeightReading[] moved = [new(0, null, 10), new(5, null, 90), new(10, null, 20)];
        Assert.Equal(LineShape.CannotTell, Shape.Of(new WeightSeries(held, 0)));
        Assert.Equal(LineShape.CannotTell, Shape.Of(new WeightSeries(moved, 0)));
    }

    [Fact]
    public void Two_loads_cannot_tell() =>
        Assert.Equal(LineShape.CannotTell, Shape.Of(TestSeries.Of(0, (0, 14, 16), (5, 24, 26))));

    [Fact]
    public void Three_loads_on_a_line_are_straight() =>
        Assert.Equal(LineShape.Straight, Shape.Of(TestSeries.Of(0, (0, 14, 16), (5, 24, 26), (10, 33, 36))));

    [Fact]
    public void Ever_steeper_bends_upward() =>
        Assert.Equal(LineShape.BendsUpward, Shape.Of(TestSeries.Of(0, (0, 9, 10), (4, 11, 12), (8, 20, 21), (12, 40, 41))));

    [Fact]
    public void Ever_flatter_bends_downward() =>
        Assert.Equal(LineShape.BendsDownward, Shape.Of(TestSeries.Of(0, (0, 1, 2), (4, 20, 21), (8, 25, 26), (12, 27, 28))));

    [Fact]
    public void Up_and_down_is_scattered() =>
        Assert.Equal(LineShape.Scattered, Shape.Of(TestSeries.Of(0, (0, 9, 10), (4, 30, 31), (8, 11, 12), (12, 40, 41))));

    [Fact]
    public void The_same_load_read_twice_with_brackets_apart_is_scattered() =>
        Assert.Equal(LineShape.Scattered, Shape.Of(TestSeries.Of(0, (0, 9, 10), (0, 12, 13), (5, 20, 21))));

    [Fact]
    public void The_odd_one_out_is_the_one_that_lies_off_the_line()
    {
        WeightSeries series = TestSeries.Of(0, (0, 9, 11), (5, 19, 21), (10, 49, 51), (15, 39, 41), (20, 49, 51));
        WeightReading odd = Assert.Single(Widening.OddOnesOut(series));
        Assert.Equal(10, odd.AddedN);
    }

    // A series from a true line is never said to bend.
    [Fact]
    public void Readings_from_a_line_are_never_said_to_bend() => Law.Holds(TestSeries.FromALine, 507, 2000, one =>
        Assert.Contains(Shape.Of(one.Series), new[] { LineShape.Straight, LineShape.CannotTell }));

    [Theory]
    [InlineData(-1.0, 5.0, 6.0)]
    [InlineData(0.0, -5.0, 6.0)]
    [InlineData(0.0, 7.0, 6.0)]
    [InlineData(double.NaN, 5.0, 6.0)]
    [InlineData(0.0, null, null)]
    public void A_reading_that_cannot_be_is_refused(double addedN, double? heldN, double? movedN) =>
        Assert.ThrowsAny<ArgumentException>(() => new WeightReading(addedN, heldN, movedN));

    [Fact]
    public void A_series_without_readings_is_refused() => Assert.Throws<ArgumentException>(() => new WeightSeries([], 0));
}
