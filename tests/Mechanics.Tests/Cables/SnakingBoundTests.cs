using System.Runtime.Intrinsics;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>How much more than in pull a push can take, told without a march.</summary>
public class SnakingBoundTests
{
    private static readonly Vector512<double> OneN = Vector512<double>.One;

    // Against the march. Most of those that it speaks of snake; of those that lock it never does.
    [Fact]
    public void No_push_takes_more_than_the_bound()
    {
        var random = new Random(7);
        (int told, int more) = (0, 0);
        for (int i = 0; i < 5000; i++)
        {
            var route = new CableRoute(Enumerable.Range(0, random.Next(1, 10)).Select<int, RouteElement>(_ => random.Next(2) == 0
                ? new Straight(Between(0.1, 2))
                : new Bend(Between(0.1, 2), Between(0.1, 0.4))));
            var cable = new CableCoefficients(
                Between(0, 0.4), Between(0, 0.2), Between(0, 10), Between(0, 3), new Core(Between(0.01, 0.4), Between(1e-4, 2e-3)), Between(0, 0.3));
            double outputN = Between(0, 200);
            double pulledN = CableMarch.InputForceN(route, cable, Direction.Pull, outputN);
            double pushedN = CableMarch.InputForceN(route, cable, Direction.Push, outputN);
            var columns = new CableColumns(
                [new CableBands(Band.Exactly(cable.Friction), default, default, cable.Core)], BandEnd.Likely);
            double[] fadingM = new double[columns.Rows];
            new RouteSums(route, cable.WobbleRadPerM, cable.HiddenShare, cable.Friction).WriteFadingLengths(columns, fadingM);
            Assert.InRange(fadingM[0], 0, route.LengthM * 1.00001);
            double boundN = SnakingBound.MostInputN(
                Vector512.Create(pulledN), Vector512.Create(columns.SnakingRate[0]), Vector512.Create(fadingM[0]))[3];
            Assert.True(pushedN <= boundN, $"{pushedN} is over {boundN}, case {i}");
            told += double.IsFinite(boundN) ? 1 : 0;
            more += double.IsFinite(boundN) && pushedN > pulledN * (1 + 1e-9) ? 1 : 0;
        }

        Assert.True(told > 2000 && more > 1000, $"{told} told, {more} of them snake");

        double Between(double least, double most) => least + (random.NextDouble() * (most - least));
    }

    // Every c from 1 to e solves e^(q c) = c at q = ln(c)/c.
    [Fact]
    public void The_bound_is_the_least_solution_and_little_more()
    {
        for (double c = 1; c <= Math.E; c += 0.001)
        {
            double q = Math.Log(c) / c;
            double boundN = SnakingBound.MostInputN(OneN, OneN, Vector512.Create(q))[0];
            Assert.InRange(boundN, c, c * (q < 0.25 ? 1.01 : 1.13));
        }

        Assert.Equal(Math.E, SnakingBound.MostInputN(OneN, OneN, Vector512.Create(1 / Math.E))[0], 1e-9);
        Assert.Equal(
            double.PositiveInfinity, SnakingBound.MostInputN(OneN, OneN, Vector512.Create(Math.BitIncrement(1 / Math.E)))[0]);
    }
}
