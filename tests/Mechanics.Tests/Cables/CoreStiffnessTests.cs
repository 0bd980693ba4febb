using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>The drag of a core that resists bending: D = 2 mu EI dk/l at each change of curvature, l = sqrt(24 C/dk).</summary>
public class CoreStiffnessTests
{
    private static readonly CableCoefficients StiffOnly = new(0.08, 0, 0, 0, new Core(0.12, 0.0006));

    // Both ends of a lone 90 degree bend together, 2 D: computed by an independent implementation. With nothing else in
    // the cable the march gives D e^(mu theta) + D.
    [Theory]
    [InlineData(0.3, 1.94746)]
    [InlineData(0.25, 2.56)]
    [InlineData(0.2, 3.57771)]
    [InlineData(0.15, 5.50824)]
    [InlineData(0.1, 10.11929)]
    [InlineData(0.075, 15.57966)]
    public void A_lone_bend_drags_by_its_radius(double radiusM, double dragN)
    {
        double inputN = InputN(StiffOnly, new Straight(1), new Bend(Math.PI / 2, radiusM), new Straight(1));
        Near.Relative(dragN, inputN * 2 / (Math.Exp(0.08 * Math.PI / 2) + 1), 2e-6);
    }

    // Computed by an independent implementation: friction 0.08, EI 0.12 N m2, clearance 0.6 mm, no other drag, no load.
    [Fact]
    public void One_bend_of_90_degrees() => Near.Relative(3.8172378, InputN(StiffOnly, new Bend(Math.PI / 2, 0.2)), 2e-8);

    // As above.
    [Fact]
    public void Two_touching_bends_of_45_degrees_the_same_way() =>
        Near.Relative(3.8172378, InputN(StiffOnly, new Bend(Math.PI / 4, 0.2, 1), new Bend(Math.PI / 4, 0.2, 1)), 2e-8);

    // As above.
    [Fact]
    public void Two_touching_bends_of_45_degrees_opposite_ways() =>
        Near.Relative(
            9.2049887, InputN(StiffOnly, new Bend(Math.PI / 4, 0.2, 0), new Bend(Math.PI / 4, 0.2, Math.PI)), 2e-8);

    // A full turn of the frame is the same way.
    [Fact]
    public void A_turn_of_360_degrees_is_a_turn_of_none() =>
        Near.Relative(
            3.8172378, InputN(StiffOnly, new Bend(Math.PI / 4, 0.2, 0), new Bend(Math.PI / 4, 0.2, 2 * Math.PI)), 2e-8);

    // Touching bends of 60 and 80 degrees: what changes between them is the length of the difference of two vectors,
    // by plane geometry; each change adds its D where it stands in the march.
    [Theory]
    [InlineData(0.0, 0.2, 0.3, 5 - (10.0 / 3))]
    [InlineData(Math.PI, 0.2, 0.3, 5 + (10.0 / 3))]
    [InlineData(-Math.PI, 0.2, 0.3, 5 + (10.0 / 3))]
    [InlineData(null, 0.2, 0.3, 5 + (10.0 / 3))]
    [InlineData(Math.PI / 2, 0.25, 1 / 3.0, 5)] // 3-4-5: sqrt(4^2 + 3^2)
    [InlineData(-Math.PI / 2, 0.25, 1 / 3.0, 5)]
    [InlineData(Math.PI / 3, 0.2, 0.2, 5)] // equilateral
    public void Touching_bends_change_by_the_difference_of_their_curvatures(
        double? turnRad, double helmRadiusM, double armRadiusM, double changePerM)
    {
        (double helmAngle, double armAngle) = (60 * Units.RadiansPerDegree, 80 * Units.RadiansPerDegree);
        double forceN = DragN(1 / armRadiusM);
        forceN = (forceN * Math.Exp(0.08 * armAngle)) + DragN(changePerM);
        forceN = (forceN * Math.Exp(0.08 * helmAngle)) + DragN(1 / helmRadiusM);
        double found = InputN(StiffOnly, new Bend(helmAngle, helmRadiusM, 0), new Bend(armAngle, armRadiusM, turnRad));
        Near.Relative(forceN, found, 1e-13);

        static double DragN(double dk) => 2 * 0.08 * 0.12 * dk / Math.Sqrt(24 * 0.0006 / dk);
    }

    // 500 cases, seed 101.
    [Fact]
    public void A_turn_not_stated_is_taken_as_opposite() =>
        Law.Holds(
            Gen.Select(Gen.Double[0.1, 2], Gen.Double[0.05, 0.5]).Array[2, 6],
            101,
            500,
            bends => Near.Relative(
                InputN(StiffOnly, [.. bends.Select((b, i) => new Bend(b.Item1, b.Item2, i % 2 * Math.PI))]),
                InputN(StiffOnly, [.. bends.Select(b => new Bend(b.Item1, b.Item2))]),
                1e-12));

    // l = sqrt(24 C R) = 53.7 mm at R = 0.2 m: a bend of 53.7/200 rad is as long as l, one half of that is scaled by half.
    [Theory]
    [InlineData(1.0)]
    [InlineData(0.999)]
    [InlineData(0.5)]
    [InlineData(0.05)]
    public void A_lone_bend_shorter_than_its_contacts_are_apart_is_scaled(double share)
    {
        double apartM = Math.Sqrt(24 * 0.0006 * 0.2);
        double angle = share * apartM / 0.2;
        double dragN = share * 2 * 0.08 * 0.12 / (0.2 * apartM);
        double expected = dragN * (Math.Exp(0.08 * angle) + 1);
        Near.Relative(expected, InputN(StiffOnly, new Straight(1), new Bend(angle, 0.2), new Straight(1)), 1e-12);
        Near.Relative(expected, InputN(StiffOnly, new Bend(angle, 0.2)), 1e-12);
    }

    [Fact]
    public void A_bend_that_touches_another_is_not_scaled()
    {
        double dragN = 2 * 0.08 * 0.12 / (0.2 * Math.Sqrt(24 * 0.0006 * 0.2));
        double middleN = dragN * Math.Pow(2, 1.5);
        double grown = Math.Exp(0.08 * 0.05);
        double found = InputN(StiffOnly, new Bend(0.05, 0.2, 0), new Bend(0.05, 0.2, Math.PI));
        Near.Relative((((dragN * grown) + middleN) * grown) + dragN, found, 1e-12);
    }

    // D = 2 mu EI dk/l falls as C^(-1/2) and in proportion to EI, and a compressed core's own term stays out of pull: in pull
    // either limit is the plain law. Not so in push: a looser or softer core snakes more, and locks. 300 cases, seed 102.
    [Fact]
    public void In_pull_a_huge_clearance_or_a_limp_core_is_the_plain_law() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.PlainCable, Cases.OutputN), 102, 300, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            double plainN = InputN(cable, outputN, elements);
            double hugeN = InputN(cable with { Core = new Core(0.1, 1e24) }, outputN, elements);
            double limpN = InputN(cable with { Core = new Core(1e-15, 0.001) }, outputN, elements);
            Assert.InRange(hugeN, plainN, plainN + 1e-8);
            Assert.InRange(limpN, plainN, plainN + 1e-8);
        });

    // 300 cases, seed 103: a quarter of the clearance doubles the drag, whatever the route, while no bend is scaled.
    [Fact]
    public void Drag_goes_as_the_inverse_root_of_the_clearance() =>
        Law.Holds(Gen.Select(Gen.Double[0.8, 3], Gen.Double[0.1, 0.5], Cases.Core), 103, 300, one =>
        {
            (double angle, double radiusM, Core core) = one;
            CableCoefficients cable = StiffOnly with { Core = core with { DiametralClearanceM = 1e-4 } };
            CableCoefficients looser = StiffOnly with { Core = core with { DiametralClearanceM = 4e-4 } };
            var bend = new Bend(angle, radiusM);
            Near.Relative(InputN(cable, bend), 2 * InputN(looser, bend), 1e-12);
        });

    private static double InputN(CableCoefficients cable, params RouteElement[] elements) => InputN(cable, 0, elements);

    private static double InputN(CableCoefficients cable, double outputN, RouteElement[] elements) =>
        CableMarch.InputForceN(new CableRoute(elements), cable, Direction.Pull, outputN);
}
