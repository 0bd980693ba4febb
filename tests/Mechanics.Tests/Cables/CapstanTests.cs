using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests.Cables;

public class CapstanTests
{
    private const double Turn = 2 * Math.PI;

    // Beer & Johnston, Vector Mechanics for Engineers: Statics, 10th ed., problem 8.104: a hawser wound two full turns
    // around a bollard; 80 lb on one side holds 5000 lb on the other: mu = 0.329.
    [Fact]
    public void Two_turns_that_hold_5000_lb_with_80_lb_mean_a_friction_of_0_329()
    {
        var chain = new Chain(new Helm(0.1, 0.1, 1, 0, null), Wound(2), [], new Arm(0.1, 0.1, 1, 0));
        double? friction = Calibration.FrictionFor(
            chain, Plain(0), new LoadCase("ship", Direction.Pull, 80 * Units.NewtonsPerLbf), 5000 * Units.NewtonsPerLbf);
        Assert.NotNull(friction);
        Assert.InRange(friction.Value, 0.3285, 0.3295);
    }

    // The same problem, second question: with that friction 80 lb hold 20,000 lb at 2.67 turns.
    [Theory]
    [InlineData(2.665, true)]
    [InlineData(2.675, false)]
    public void Holding_20000_lb_takes_2_67_turns(double turns, bool tooFew)
    {
        double friction = Math.Log(5000.0 / 80) / (2 * Turn);
        double heldLbf = CableMarch.InputForceN(Wound(turns), Plain(friction), Direction.Pull, 80);
        Assert.Equal(tooFew, heldLbf < 20000);
    }

    // EN 1992-1-1:2004, 5.10.5.2, eq. (5.45): the loss over a length x from the jack is P_max (1 - e^(-mu (theta + k x))).
    // 0.005 < k < 0.01 per metre is the standard's range for internal tendons.
    [Theory]
    [InlineData(0.17, 0, 0.005, 10)]
    [InlineData(0.17, 1.5, 0.005, 10)]
    [InlineData(0.19, 0.35, 0.01, 40)]
    [InlineData(0.19, 3, 0.01, 99)]
    [InlineData(0.24, 6, 0.0075, 25)]
    [InlineData(0.65, 2, 0.01, 60)]
    public void Losses_are_those_of_a_tendon_in_a_duct(double mu, double theta, double k, double x)
    {
        const double JackN = 1000;
        double lossN = JackN * (1 - Math.Exp(-mu * (theta + (k * x))));
        const double RadiusM = 2;
        RouteElement[] elements = theta > 0
            ? [new Straight((x - (RadiusM * theta)) / 2), new Bend(theta, RadiusM), new Straight((x - (RadiusM * theta)) / 2)]
            : [new Straight(x)];
        var cable = new CableCoefficients(mu, k, 0, 0, null);
        double atJackN = CableMarch.InputForceN(new CableRoute(elements), cable, Direction.Pull, JackN - lossN);
        Near.Relative(JackN, atJackN, 1e-12);
        Near.Relative(JackN, Capstan.InputForceN(JackN - lossN, x, mu * (theta + (k * x)), 0), 1e-12);
    }

    // e^(mu theta) at 90, 180 ... 540 degrees: computed by an independent implementation, six decimals.
    [Theory]
    [InlineData(0.03, 1.048252, 1.098832, 1.151853, 1.207432, 1.265693, 1.326765)]
    [InlineData(0.05, 1.081706, 1.170089, 1.265693, 1.369108, 1.480973, 1.601978)]
    [InlineData(0.08, 1.133901, 1.285731, 1.457891, 1.653104, 1.874456, 2.125447)]
    [InlineData(0.1, 1.170089, 1.369108, 1.601978, 1.874456, 2.19328, 2.566332)]
    [InlineData(0.15, 1.265693, 1.601978, 2.027611, 2.566332, 3.248188, 4.111207)]
    [InlineData(0.2, 1.369108, 1.874456, 2.566332, 3.513586, 4.810477, 6.586062)]
    [InlineData(0.3, 1.601978, 2.566332, 4.111207, 6.586062, 10.550724, 16.902024)]
    public void Amplification_is_that_of_the_capstan_table(double mu, params double[] amplifications)
    {
        Assert.Equal(6, amplifications.Length);
        foreach ((int i, double expected) in amplifications.Index())
        {
            double found = CableMarch.InputForceN(Wound((i + 1) / 4.0), Plain(mu), Direction.Pull, 1);
            Assert.InRange(found, expected - 0.51e-6, expected + 0.51e-6);
        }
    }

    // Common practice, no source: a very good cable with 360 degrees of bend takes about 1.4 times its output at its input.
    // Friction 0.0536 is that rule turned round.
    [Fact]
    public void A_very_good_cable_with_a_full_turn_takes_1_4_times_its_output()
    {
        double found = CableMarch.InputForceN(Wound(1), Plain(0.0536), Direction.Pull, 1);
        Assert.InRange(found, 1.395, 1.405);
    }

    // (e^x - 1)/x by its series, 1 + x/2 + x^2/6 + x^3/24, whose next term is below 1e-17 for these x: NIST Digital Library
    // of Mathematical Functions, 4.2.19.
    [Theory]
    [InlineData(0)]
    [InlineData(1e-300)]
    [InlineData(1e-16)]
    [InlineData(1e-10)]
    [InlineData(3e-8)]
    [InlineData(1e-5)]
    [InlineData(1e-4)]
    public void Drag_over_a_nearly_frictionless_length_keeps_its_digits(double x)
    {
        double expected = 1 + (x / 2) + (x * x / 6) + (x * x * x / 24);
        Near.Relative(expected, Capstan.InputForceN(0, 1, x, 1), 4e-16);
    }

    private static CableRoute Wound(double turns) => new([new Bend(turns * Turn, 0.2)]);

    private static CableCoefficients Plain(double friction) => new(friction, 0, 0, 0, null);
}
