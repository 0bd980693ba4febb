using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>What holds for every cable on every route.</summary>
public class CableLawTests
{
    // 500 cases, seed 401.
    [Fact]
    public void Without_friction_and_drags_what_goes_in_comes_out() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.CableWithCore, Cases.OutputN), 401, 500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            CableCoefficients slippery = cable with { Friction = 0, SealDragN = 0, RunningDragNPerM = 0 };
            Assert.Equal(outputN, InputN(elements, slippery, Direction.Pull, outputN));
            Assert.Equal(outputN, InputN(elements, slippery, Direction.Push, outputN));
            Near.Relative(outputN + 1, 1 + InputN(elements, slippery with { Friction = 1e-12 }, Direction.Push, outputN), 1e-8);
        });

    // F_out + 2 s + w L. 300 cases, seed 402.
    [Fact]
    public void Without_bend_and_wobble_only_the_drags_add() =>
        Law.Holds(Gen.Select(Gen.Double[0.1, 10].Array[1, 5], Cases.AnyCable, Cases.OutputN), 402, 300, one =>
        {
            (double[] lengths, CableCoefficients cable, double outputN) = one;
            RouteElement[] straights = [.. lengths.Select(length => new Straight(length))];
            double inputN = InputN(straights, cable with { WobbleRadPerM = 0 }, Direction.Pull, outputN);
            double expected = outputN + (2 * cable.SealDragN) + (cable.RunningDragNPerM * lengths.Sum());
            Assert.True(Math.Abs(inputN - expected) <= 1e-13 * expected, $"{expected}, found {inputN}");
        });

    // Two touching halves at any cut, pull and push, with core. 1000 cases, seed 403.
    [Fact]
    public void One_bend_written_as_two_that_turn_the_same_way_is_one_bend() =>
        Law.Holds(Gen.Select(Cases.StatedElements, Cases.CableWithCore, Cases.OutputN, Gen.Double[0.05, 0.95]), 403, 1000, one =>
            SameWhenCut<Bend>(one.Item1, one.Item2, one.Item3, bend =>
            [
                new Bend(bend.AngleRad * one.Item4, bend.RadiusM, bend.TurnRad),
                new Bend(bend.AngleRad * (1 - one.Item4), bend.RadiusM, bend.TurnRad),
            ]));

    // Snaking sets in by the whole straight, however it is written. 1000 cases, seed 404.
    [Fact]
    public void One_straight_written_as_two_is_one_straight() =>
        Law.Holds(Gen.Select(Cases.StatedElements, Cases.CableWithCore, Cases.OutputN, Gen.Double[0.05, 0.95]), 404, 1000, one =>
            SameWhenCut<Straight>(one.Item1, one.Item2, one.Item3, straight =>
                [new Straight(straight.LengthM * one.Item4), new Straight(straight.LengthM * (1 - one.Item4))]));

    // e^(mu (theta + phi L)) knows no order. 500 cases, seed 405.
    [Fact]
    public void Without_drags_and_core_the_order_of_elements_does_not_matter_in_pull() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.PlainCable, Cases.OutputN), 405, 500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            CableCoefficients dry = cable with { SealDragN = 0, RunningDragNPerM = 0 };
            double forwards = InputN(elements, dry, Direction.Pull, outputN);
            double backwards = InputN([.. elements.Reverse()], dry, Direction.Pull, outputN);
            double together = outputN * Math.Exp(dry.Friction * elements.Sum(e => e.AngleRad + (dry.WobbleRadPerM * e.LengthM)));
            Near.Relative(forwards, backwards, 1e-13);
            Near.Relative(together, forwards, 1e-13);
        });

    // Swapping two neighbours changes the answer by w (L_b/x_b - L_a/x_a) (e^x_a - 1)(e^x_b - 1): it is least where the angle
    // per metre rises towards the output (straights at the helm, the tightest bend at the output) and most the other way
    // round. 500 cases, seed 406.
    [Fact]
    public void Running_drag_is_amplified_least_with_the_bends_at_the_output() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.PlainCable, Cases.OutputN), 406, 500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            double asWritten = InputN(elements, cable, Direction.Pull, outputN);
            double least = InputN([.. elements.OrderBy(e => e.AngleRad / e.LengthM)], cable, Direction.Pull, outputN);
            double most = InputN([.. elements.OrderByDescending(e => e.AngleRad / e.LengthM)], cable, Direction.Pull, outputN);
            Near.AtLeast(least, asWritten);
            Near.AtLeast(asWritten, most);
        });

    // By hand: 2 m of straight and a bend of 1 rad at 0.1 m, w = 3 N/m, mu = 0.2, no seals, no wobble, output 10 N.
    // Bend at the output: 10 e^0.2 + 0.3 (e^0.2 - 1)/0.2, then + 6. Bend at the helm: (10 + 6) e^0.2 + 0.3 (e^0.2 - 1)/0.2.
    [Fact]
    public void Where_the_bend_stands_decides_what_it_amplifies()
    {
        var cable = new CableCoefficients(0.2, 0, 0, 3, null);
        RouteElement[] bendAtOutput = [new Straight(2), new Bend(1, 0.1)];
        double grown = Math.Exp(0.2);
        double ownN = 0.3 * (grown - 1) / 0.2;
        Near.Relative((10 * grown) + ownN + 6, InputN(bendAtOutput, cable, Direction.Pull, 10), 1e-14);
        Near.Relative((16 * grown) + ownN, InputN([.. bendAtOutput.Reverse()], cable, Direction.Pull, 10), 1e-14);
    }

    // 500 cases, seed 407: pull and push.
    [Fact]
    public void Input_rises_with_output() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.AnyCable, Cases.OutputN, Cases.OutputN), 407, 500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double aN, double bN) = one;
            foreach (Direction direction in Enum.GetValues<Direction>())
            {
                double less = InputN(elements, cable, direction, Math.Min(aN, bN));
                Near.AtLeast(less, InputN(elements, cable, direction, Math.Max(aN, bN)));
                Near.AtLeast(Math.Min(aN, bN), less);
            }
        });

    [Fact]
    public void A_band_of_cables_is_taken_at_its_ends()
    {
        var core = new Core(0.1, 0.001);
        var bands = new CableBands(new Band(0.1, 0.2, 0.3), new Band(1, 2, 3), new Band(4, 5, 6), core);
        Assert.Equal(new CableCoefficients(0.1, 0.5, 1, 4, core), bands.At(BandEnd.Low, 0.5));
        Assert.Equal(new CableCoefficients(0.2, 0.5, 2, 5, core), bands.At(BandEnd.Likely, 0.5));
        Assert.Equal(new CableCoefficients(0.3, 0.5, 3, 6, core), bands.At(BandEnd.High, 0.5));
    }

    // An angle that is hidden is an angle that rubs. 500 cases, seed 441.
    [Fact]
    public void Without_a_core_a_hidden_angle_acts_as_so_much_more_friction() =>
        Law.Holds(Gen.Select(Cases.PlainCable, Cases.AnyElements, Cases.OutputN, Gen.Double[0, 2]), 441, 500, one =>
        {
            (CableCoefficients cable, RouteElement[] elements, double outputN, double share) = one;
            Near.Relative(
                1 + InputN(elements, cable with { Friction = cable.Friction * (1 + share) }, Direction.Push, outputN),
                1 + InputN(elements, cable with { HiddenShare = share }, Direction.Push, outputN),
                1e-9);
        });

    // More friction drags more where a stiff core is bent and where it snakes as well; a hidden angle does not. 500 cases, seed 442.
    [Fact]
    public void With_a_core_a_hidden_angle_adds_but_no_more_than_as_much_friction_would() =>
        Law.Holds(Gen.Select(Cases.CableWithCore, Cases.AnyElements, Cases.OutputN, Gen.Double[0, 2]), 442, 500, one =>
        {
            (CableCoefficients cable, RouteElement[] elements, double outputN, double share) = one;
            foreach (Direction direction in Enum.GetValues<Direction>())
            {
                double plainN = InputN(elements, cable, direction, outputN);
                double hiddenN = InputN(elements, cable with { HiddenShare = share }, direction, outputN);
                double rougherN =
                    InputN(elements, cable with { Friction = cable.Friction * (1 + share) }, direction, outputN);
                Assert.InRange(hiddenN, plainN * (1 - 1e-9), rougherN * (1 + 1e-9));
            }
        });

    private static void SameWhenCut<T>(
        RouteElement[] elements, CableCoefficients cable, double outputN, Func<T, RouteElement[]> cut)
        where T : RouteElement
    {
        RouteElement[] pieces = [.. elements.SelectMany(e => e is T whole ? cut(whole) : [e])];
        foreach (Direction direction in Enum.GetValues<Direction>())
        {
            double whole = InputN(elements, cable, direction, outputN);
            double inPieces = InputN(pieces, cable, direction, outputN);
            if (double.IsInfinity(whole))
            {
                Assert.Equal(whole, inPieces);
            }
            else
            {
                Near.Relative(whole + 1, inPieces + 1, 1e-9);
            }
        }
    }

    private static double InputN(RouteElement[] elements, CableCoefficients cable, Direction direction, double outputN) =>
        CableMarch.InputForceN(new CableRoute(elements), cable, direction, outputN);
}
