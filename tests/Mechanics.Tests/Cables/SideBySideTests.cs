using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>Cables that are marched side by side each get what marching it by itself gives. All of it is invented.</summary>
public class SideBySideTests
{
    // Some with no core, some that snake, some that lock, all of them neighbours of each other.
    [Theory]
    [InlineData(Direction.Pull)]
    [InlineData(Direction.Push)]
    public void Each_is_as_if_it_were_alone(Direction direction)
    {
        var random = new Random(11);
        double worst = 0;
        int locked = 0;
        for (int i = 0; i < 5000; i++)
        {
            int elements = random.Next(1, i % 20 == 0 ? CableRoute.MostElements : 12);
            var route = new CableRoute(Enumerable.Range(0, elements).Select<int, RouteElement>(_ => random.Next(3) == 0
                ? new Straight(Between(0.001, 2))
                : new Bend(Between(0.05, i % 20 == 0 ? 0.3 : 2), Between(0.02, 0.4), random.Next(2) == 0 ? null : Between(0, 6))));
            CableCoefficients[] cables = [.. Enumerable.Range(0, random.Next(1, SideBySide.Most + 1)).Select(_ => new CableCoefficients(
                random.Next(8) == 0 ? 0 : Between(0, 0.5),
                random.Next(4) == 0 ? 0 : Between(0, 0.3),
                random.Next(4) == 0 ? 0 : Between(0, 20),
                random.Next(2) == 0 ? 0 : Between(0, 20),
                random.Next(4) == 0 ? null : new Core(Between(0.01, 1), Between(1e-4, 0.003)),
                random.Next(2) == 0 ? 0 : Between(0, 0.5)))];
            double[] outputN = [.. cables.Select(_ => random.Next(8) == 0 ? 0 : Between(0, 400))];
            double[] inputN = new double[cables.Length];

            SideBySide.InputForcesN(route, cables, direction, outputN, inputN);

            for (int at = 0; at < cables.Length; at++)
            {
                double aloneN = CableMarch.InputForceN(route, cables[at], direction, outputN[at]);
                Assert.Equal(double.IsInfinity(aloneN), double.IsInfinity(inputN[at]));
                locked += double.IsInfinity(aloneN) ? 1 : 0;
                worst = double.IsInfinity(aloneN) || aloneN == inputN[at] ? worst : Math.Max(worst, Math.Abs((inputN[at] / aloneN) - 1));
            }
        }

        Assert.InRange(worst, 0, 1e-13);
        Assert.InRange(locked, direction == Direction.Push ? 1000 : 0, direction == Direction.Push ? int.MaxValue : 0);

        double Between(double least, double most) => least + (random.NextDouble() * (most - least));
    }

    // e to the friction angle is no number any more.
    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void More_angle_than_a_number_holds_locks_as_it_does_alone(double runningDragNPerM)
    {
        var route = new CableRoute([new Straight(1)]);
        var cable = new CableCoefficients(1, 1, 0, runningDragNPerM, new Core(0.1, 1e-3), 800);
        double[] inputN = new double[2];
        SideBySide.InputForcesN(route, [cable with { HiddenShare = 0 }, cable], Direction.Push, [5, 5], inputN);
        Assert.Equal(double.PositiveInfinity, CableMarch.InputForceN(route, cable, Direction.Push, 5));
        Assert.True(double.IsFinite(inputN[0]) && double.IsPositiveInfinity(inputN[1]));
    }

    [Theory]
    [InlineData(9, 9, 9)]
    [InlineData(2, 1, 2)]
    [InlineData(2, 2, 3)]
    public void There_is_a_force_in_and_out_for_each_of_eight_at_most(int cables, int outputs, int inputs) =>
        Assert.Throws<ArgumentException>(() => SideBySide.InputForcesN(
            new CableRoute([new Straight(1)]), new CableCoefficients[cables], Direction.Pull, new double[outputs], new double[inputs]));

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_force_that_is_none_is_refused(double outputN)
    {
        CableCoefficients cable = new(0.1, 0, 0, 0, null);
        Assert.Throws<ArgumentOutOfRangeException>(() => SideBySide.InputForcesN(
            new CableRoute([new Straight(1)]), [cable, cable], Direction.Pull, [1, outputN], new double[2]));
    }
}
