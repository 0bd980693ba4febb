using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>A route summed once gives every cable the force that marching it section by section gives. All of it is invented.</summary>
public class RouteSumsTests
{
    // Up to two hundred elements, a friction of 1 and a wobble of 1 rad/m.
    [Fact]
    public void It_is_the_march()
    {
        var random = new Random(5);
        double worst = 0;
        for (int i = 0; i < 2000; i++)
        {
            int elements = random.Next(1, i % 20 == 0 ? CableRoute.MostElements : 12);
            var route = new CableRoute(Enumerable.Range(0, elements).Select<int, RouteElement>(_ => random.Next(3) == 0
                ? new Straight(Between(0.001, 0.5))
                : new Bend(Between(0.001, i % 20 == 0 ? 0.3 : 2), Between(0.02, 0.4), random.Next(2) == 0 ? null : Between(0, 6))));
            double mostFriction = random.Next(2) == 0 ? 1 : 0.2;
            CableBands[] cables = [.. Enumerable.Range(0, random.Next(1, 10)).Select(_ => new CableBands(
                Band.Exactly(random.Next(8) == 0 ? 0 : Between(0, mostFriction)),
                Band.Exactly(random.Next(4) == 0 ? 0 : Between(0, 20)),
                Band.Exactly(random.Next(4) == 0 ? 0 : Between(0, 20)),
                random.Next(2) == 0 ? null : new Core(Between(1e-4, 1), Between(1e-5, 0.01))))];
            double wobble = random.Next(4) == 0 ? 0 : Between(0, 1);
            double hidden = random.Next(2) == 0 ? 0 : Between(0, 0.5);
            var columns = new CableColumns(cables, BandEnd.Likely);
            var sums = new RouteSums(route, wobble, hidden, columns.MostFriction);
            double[] gain = new double[columns.Rows];
            double[] dragN = new double[columns.Rows];

            sums.WriteStages(columns, gain, dragN);

            foreach ((int at, CableBands cable) in cables.Index())
            {
                double outputN = Between(0, 500);
                double marchedN = CableMarch.InputForceN(
                    route, cable.At(BandEnd.Likely, wobble) with { HiddenShare = hidden }, Direction.Pull, outputN);
                worst = Math.Max(worst, Math.Abs((gain[at] * outputN) + dragN[at] - marchedN) / Math.Max(marchedN, double.Epsilon));
            }
        }

        Assert.InRange(worst, 0, 1e-12);

        double Between(double least, double most) => least + (random.NextDouble() * (most - least));
    }

    [Fact]
    public void The_rows_that_fill_up_the_last_eight_take_no_force()
    {
        var columns = new CableColumns([new CableBands(Band.Exactly(0.2), Band.Exactly(1), Band.Exactly(1), new Core(0.1, 1e-3))], BandEnd.High);
        double[] gain = new double[columns.Rows];
        double[] dragN = new double[columns.Rows];
        new RouteSums(new CableRoute([new Bend(1, 0.2)]), 0.05, 0, columns.MostFriction).WriteStages(columns, gain, dragN);
        Assert.Equal(Enumerable.Repeat(1.0, 7), gain[1..]);
        Assert.Equal(Enumerable.Repeat(0.0, 7), dragN[1..]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.Epsilon)]
    public void With_next_to_no_friction_a_route_gives_back_what_is_put_in(double friction)
    {
        var columns = new CableColumns([new CableBands(Band.Exactly(friction), default, default, null)], BandEnd.Likely);
        double[] gain = new double[columns.Rows];
        double[] dragN = new double[columns.Rows];
        new RouteSums(new CableRoute([new Bend(3, 0.2)]), 0.05, 0, columns.MostFriction).WriteStages(columns, gain, dragN);
        Assert.Equal((1, 0), (gain[0], dragN[0]));
    }

    [Fact]
    public void More_friction_and_angle_than_a_number_holds_is_refused()
    {
        var route = new CableRoute([new Straight(100)]);
        Assert.Equal(100 * 71, RouteSums.Exponent(route, 1, 70, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RouteSums(route, 1, 70, 1));
    }

    // The drags at the joints as a series where no bend is short for any, and joint by joint where one is.
    [Theory]
    [InlineData(null, 1.9, 1)]
    [InlineData(1e-4, 1.9, 1)]
    [InlineData(0.2, 1.9, 1)]
    [InlineData(1e-4, 0, 1)]
    [InlineData(0.2, 0, 1)]
    [InlineData(1e-4, 0, 0.03)]
    [InlineData(0.2, 1.9, 0.03)]
    public void It_is_the_march_up_to_the_most_friction_and_angle(double? clearanceM, double hiddenShare, double friction)
    {
        var route = new CableRoute([new Straight(95), new Bend(2, 0.3), new Straight(2), new Bend(1, 0.2)]);
        Core? core = clearanceM is { } roomM ? new Core(0.1, roomM) : null;
        var columns = new CableColumns([new CableBands(Band.Exactly(friction), Band.Exactly(1), Band.Exactly(1), core)], BandEnd.Likely);
        double[] gain = new double[columns.Rows];
        double[] dragN = new double[columns.Rows];
        double wobbleRadPerM = 1 / friction;
        new RouteSums(route, wobbleRadPerM, hiddenShare, friction).WriteStages(columns, gain, dragN);
        double marchedN = CableMarch.InputForceN(
            route, new CableCoefficients(friction, wobbleRadPerM, 1, 1, core, hiddenShare), Direction.Pull, 100);
        Assert.InRange((gain[0] * 100) + dragN[0], marchedN * (1 - 1e-12), marchedN * (1 + 1e-12));
    }
}
