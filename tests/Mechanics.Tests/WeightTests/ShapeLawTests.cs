using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Shapes of readings from known curves, and against a linear-programming library.</summary>
public class ShapeLawTests
{
    [Fact]
    public void Readings_from_a_line_hung_roughly_are_never_said_to_bend() =>
        Law.Holds(TestSeries.FromALineHungRoughly, 521, 2000, one =>
            Assert.Contains(Shape.Of(one.Series), new[] { LineShape.Straight, LineShape.CannotTell }));

    [Fact]
    public void Readings_from_an_upward_bend_are_never_said_to_do_anything_else() =>
        OnlyThat(TestSeries.FromUpward, 522, LineShape.BendsUpward);

    [Fact]
    public void Readings_from_a_downward_bend_are_never_said_to_do_anything_else() =>
        OnlyThat(TestSeries.FromDownward, 523, LineShape.BendsDownward);

    // Where no line fits, a rising curve that is nowhere negative bends one way at most, so the programme decides in every case.
    [Theory]
    [InlineData(false, 524)]
    [InlineData(true, 525)]
    public void The_shape_is_that_of_a_linear_programme(bool hungRoughly, int seed)
    {
        var found = new Dictionary<LineShape, int>();
        Gen<WeightSeries> cases = Gen.Frequency<WeightSeries>(
            (2, TestSeries.AnyHungRoughly), (1, TestSeries.FromUpward), (1, TestSeries.FromDownward));
        Law.Holds(cases, (ulong)seed, 800, one =>
        {
            WeightSeries series = hungRoughly ? one : new WeightSeries(one.Readings, one.UncertaintyN);
            LineProgramme.Solve(series, 0, 0, false, out double widening);
            LineShape shape = Shape.Of(series);
            found[shape] = found.GetValueOrDefault(shape) + 1;
            if (widening < 1e-6)
            {
                Assert.Contains(shape, new[] { LineShape.Straight, LineShape.CannotTell });
                return;
            }

            LineShape expected = (LineProgramme.CurveFits(series, true), LineProgramme.CurveFits(series, false)) switch
            {
                (true, false) => LineShape.BendsUpward,
                (false, true) => LineShape.BendsDownward,
                (false, false) => LineShape.Scattered,
                _ => throw new InvalidOperationException("both bends fit and no line does"),
            };
            Assert.Equal(expected, shape);
        });
        Assert.All(Enum.GetValues<LineShape>(), shape => Assert.InRange(found.GetValueOrDefault(shape), 10, 790));
    }

    private static void OnlyThat(Gen<WeightSeries> cases, ulong seed, LineShape bend)
    {
        int bends = 0;
        Law.Holds(cases, seed, 1500, series =>
        {
            LineShape shape = Shape.Of(series);
            Assert.Contains(shape, new[] { LineShape.Straight, LineShape.CannotTell, bend });
            bends += shape == bend ? 1 : 0;
        });
        Assert.InRange(bends, 100, 1400);
    }
}
