using CableCatalog.V1;

namespace CableCatalog.Service.Tests.WeightTests;

/// <summary>The installation of <see cref="TestGrades"/> as it might really be, in pull, with a cable without drags or a stiff core:
/// then every force is a product of levers and one exponential (the capstan law), written out here and not taken from the code
/// under test.</summary>
/// <param name="Friction">Friction of the cable.</param>
/// <param name="HelmFrictionN">Constant friction of the helm, N; 4 is as described.</param>
internal sealed record SimulatedControl(double Friction, double HelmFrictionN = 4)
{
    public const double PoundN = 4.4482216152605;

    /// <summary>Angle of the route that rubs: 225 deg of bend, and 0.05 rad/m over its 5.24248 m.</summary>
    public const double RouteRad = (225 * Math.PI / 180) + (0.05 * 5.242477796);

    /// <summary>At the grip, everything connected, 150 N and a weight on the arm.</summary>
    public double WholeChainN(double addedN) => CableOffN(ArmN(addedN));

    /// <summary>At the grip, the cable off at the arm.</summary>
    public double CableOffN(double addedN) => HelmN(addedN * Math.Exp(Friction * RouteRad));

    /// <summary>At the grip, the helm with the reducer at its end.</summary>
    public double HelmN(double addedN) => (((addedN / 0.8) + 3) * (0.06 / 0.3) / 0.95) + HelmFrictionN;

    /// <summary>Where the cable attaches to the arm.</summary>
    public static double ArmN(double addedN) => ((150 + addedN) * (0.22 / 0.14) / 0.92) + 5;

    /// <summary>At its helm end, the cable coiled one turn.</summary>
    public double CoiledN(double addedN) => addedN * Math.Exp(Friction * Math.Tau);

    /// <summary>A series as somebody with weights in steps would read it.</summary>
    public static TestSeries Read(
        Connected connected, Func<double, double> forceN, double stepN, params IEnumerable<double> hungN) => new()
    {
        Connected = connected,
        Direction = connected is Connected.CableOffAtArm or Connected.CableAlone ? Direction.Pull : Direction.Unspecified,
        Readings =
        {
            hungN.Select(addedN =>
            {
                double heldN = Math.Floor(forceN(addedN) / stepN) * stepN;
                return new WeightReading { AddedN = addedN, HeldN = heldN, MovedN = heldN + stepN };
            }),
        },
    };

    /// <summary>Everything connected, read in steps of 5 lbf.</summary>
    public TestSeries WholeChain() => Read(Connected.WholeChain, WholeChainN, 5 * PoundN, 0, 50, 100, 150);

    /// <summary>The helm alone, read in steps of 2 lbf.</summary>
    public TestSeries HelmAlone() => Read(Connected.HelmAlone, HelmN, 2 * PoundN, 0, 100, 200);

    /// <summary>The cable coiled one turn on the floor, read in steps of 1 lbf.</summary>
    public TestSeries CableAlone() =>
        Read(Connected.CableAlone, CoiledN, PoundN, 50, 100).With(series => series.CoilRadiusM = 0.3);

    /// <summary>A test of the installation.</summary>
    public static WeightTest Test(params IEnumerable<TestSeries> series) =>
        new() { Installation = TestGrades.Installation(), Series = { series } };

    /// <summary>Readings in pounds: the weight hung, what held, what moved it; null where it was not seen.</summary>
    public static TestSeries InPounds(params IEnumerable<(double Added, double? Held, double? Moved)> readings) => new()
    {
        Connected = Connected.WholeChain,
        Readings =
        {
            readings.Select(read =>
            {
                var reading = new WeightReading { AddedN = read.Added * PoundN };
                if (read.Held is { } held)
                {
                    reading.HeldN = held * PoundN;
                }

                if (read.Moved is { } moved)
                {
                    reading.MovedN = moved * PoundN;
                }

                return reading;
            }),
        },
    };
}
