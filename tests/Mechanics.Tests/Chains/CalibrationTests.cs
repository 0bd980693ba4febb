using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Chains;

public class CalibrationTests
{
    private const double Most = Calibration.MostPlausibleFriction;

    // Any chain with some bend and some force to rub with. 400 cases each, seed 801.
    [Theory]
    [InlineData(Direction.Pull)]
    [InlineData(Direction.Push)]
    public void The_friction_behind_an_effort_is_found_again(Direction direction)
    {
        int found = 0;
        Law.Holds(Gen.Select(Bending(), Gen.Double[0.001, 0.499]), 801, 400, one =>
        {
            (Installed installed, double friction) = one;
            double effortN = Effort.AtGripN(installed.Chain, With(installed, friction), installed.Load(direction));
            if (!double.IsFinite(effortN))
            {
                Assert.Null(FrictionFor(installed, direction, effortN));
                return;
            }

            double? again = FrictionFor(installed, direction, effortN);
            Assert.NotNull(again);
            Near.Relative(friction, again.Value, 1e-9);
            found++;
        });
        Assert.True(found > 100, $"{found} of 400 moved");
    }

    // 300 cases, seed 802.
    [Fact]
    public void An_effort_beyond_what_the_most_plausible_friction_gives_is_unexplained() =>
        Law.Holds(Bending(), 802, 300, installed =>
        {
            double mostN = Effort.AtGripN(installed.Chain, With(installed, Most), installed.Load(Direction.Pull));
            Near.Relative(Most, FrictionFor(installed, Direction.Pull, mostN) ?? double.NaN, 1e-9);
            Near.Relative(Most, FrictionFor(installed, Direction.Pull, mostN * (1 - 1e-9)) ?? double.NaN, 1e-6);
            Assert.Null(FrictionFor(installed, Direction.Pull, mostN * (1 + 1e-5)));
            double beyondN = Effort.AtGripN(installed.Chain, With(installed, 0.51), installed.Load(Direction.Pull));
            Assert.Null(FrictionFor(installed, Direction.Pull, beyondN));
        });

    // 300 cases, seed 803.
    [Fact]
    public void An_effort_below_the_frictionless_cables_is_unexplained() =>
        Law.Holds(Bending(), 803, 300, installed =>
        {
            double leastN = Effort.AtGripN(installed.Chain, With(installed, 0), installed.Load(Direction.Pull));
            Assert.Equal(0, FrictionFor(installed, Direction.Pull, leastN) ?? double.NaN, 1e-12);
            Assert.Null(FrictionFor(installed, Direction.Pull, leastN * (1 - 1e-9)));
            Assert.Null(FrictionFor(installed, Direction.Pull, 0));
        });

    // A straight snakes wholly or not at all, so at the friction that brings its force to the onset, 8 pi^2 EI/L^2 =
    // 7.895684 N, the effort leaps by the factor 1/(1 - a F L): no friction gives what lies between.
    [Fact]
    public void An_effort_within_a_leap_is_unexplained()
    {
        var bend = new Bend(1, 0.1);
        var cable = new CableCoefficients(0, 0, 0, 0, new Core(0.1, 0.002));
        Chain chain = Levers(new Straight(1), bend);
        var load = new LoadCase("any", Direction.Push, 2);
        double onsetN = 0.8 * Math.PI * Math.PI;
        double friction = Calibration.FrictionFor(Levers(bend), cable, load, onsetN)!.Value;
        double underN = Effort.AtGripN(chain, cable with { Friction = friction * (1 - 1e-9) }, load);
        double overN = Effort.AtGripN(chain, cable with { Friction = friction * (1 + 1e-9) }, load);
        Near.Relative(onsetN, underN, 1e-8);
        Assert.True(overN > underN * 1.001);
        Assert.NotNull(Calibration.FrictionFor(chain, cable, load, underN * (1 - 1e-5)));
        Assert.Null(Calibration.FrictionFor(chain, cable, load, (underN + overN) / 2));
        Assert.NotNull(Calibration.FrictionFor(chain, cable, load, overN * (1 + 1e-5)));
    }

    [Theory]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NaN)]
    public void A_locked_or_missing_effort_has_no_friction(double measuredN)
    {
        var cable = new CableCoefficients(0, 0.05, 2, 1, new Core(0.05, 0.002));
        Chain chain = Levers(new Straight(3), new Bend(Math.PI / 2, 0.25), new Straight(3));
        Assert.Null(Calibration.FrictionFor(chain, cable, new LoadCase("any", Direction.Push, 200), measuredN));
        Assert.Null(Calibration.FrictionFor(chain, cable, new LoadCase("any", Direction.Pull, 200), measuredN));
    }

    private static Gen<Installed> Bending() =>
        Gen.Select(Cases.Installed, Gen.Double[0.5, 3], Gen.Double[5, 100], (installed, angle, loadN) => installed with
        {
            LoadN = loadN,
            Chain = installed.Chain with
            {
                Route = new CableRoute([.. installed.Chain.Route.Elements, new Bend(angle, 0.15)]),
            },
        });

    private static double? FrictionFor(Installed installed, Direction direction, double measuredN) =>
        Calibration.FrictionFor(installed.Chain, installed.Cable, installed.Load(direction), measuredN);

    private static CableCoefficients With(Installed installed, double friction) => installed.Cable with { Friction = friction };

    private static Chain Levers(params RouteElement[] elements) =>
        new(new Helm(0.1, 0.1, 1, 0, null), new CableRoute(elements), [], new Arm(0.1, 0.1, 1, 0));
}
