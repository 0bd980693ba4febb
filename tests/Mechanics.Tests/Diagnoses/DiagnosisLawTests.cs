using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>What holds of every diagnosis, whatever was read.</summary>
public class DiagnosisLawTests
{
    private const double StepN = 5 * Units.NewtonsPerLbf;

    // Fewer draws than the product makes: these laws do not depend on how many.
    private const int MostDrawn = 4096;

    private static readonly Gen<(int Chain, int Seed)> SoundChains = Gen.Select(Gen.Int[0, 3], Gen.Int[0, 1_000_000]);

    [Fact]
    public void The_true_friction_is_within_what_a_cable_among_sound_parts_behaves_with() =>
        Law.Holds(SoundChains, 11, 400, one =>
        {
            (DescribedChain described, SimulatedChain real, Random random) = Drawn(one);
            double friction = 0.4 * random.NextDouble();
            real = real with { Cable = real.Cable with { Friction = friction } };

            (double Least, double? Most)? found = BehavingFriction.Of(described, AllSetUps(described, real));

            Assert.NotNull(found);
            Assert.True(found.Value.Least <= friction + 1e-9, $"{found} of {friction}");
            Assert.True((found.Value.Most ?? 1) >= friction - 1e-9, $"{found} of {friction}");
        });

    [Fact]
    public void Readings_of_one_chain_never_contradict_each_other() =>
        Law.Holds(SoundChains, 12, 400, one =>
        {
            (DescribedChain described, SimulatedChain real, _) = Drawn(one);

            Assert.Null(Contradiction.Among(described, AllSetUps(described, real)));
        });

    [Fact]
    public void A_part_that_held_at_more_than_moved_the_whole_contradicts_it()
    {
        DescribedChain described = InventedChains.NoDevice;
        var helm = new TestedSeries(new SetUp.HelmAlone(), new WeightSeries([new WeightReading(0, 200, 220)], 0));
        var whole = new TestedSeries(
            new SetUp.WholeChain(described.Loads[0]), new WeightSeries([new WeightReading(0, 100, 150)], 0));

        Assert.Equal(new Contradiction(1, 0, 0, 0), Contradiction.Among(described, [whole, helm]));
    }

    [Fact]
    public void Chances_lie_between_none_and_certain_and_some_supposition_is_true() =>
        Law.Holds(SoundChains, 13, 12, one =>
        {
            (DescribedChain described, SimulatedChain real, _) = Drawn(one);

            Diagnosis diagnosis = Diagnosis.Of(described, [Whole(described, real)], MostDrawn);

            Assert.NotNull(diagnosis.NothingAtFault);
            Assert.All(diagnosis.Suspects, s => Assert.InRange(s.Probability!.Value, 0, 1 + 1e-9));
            Assert.True(diagnosis.NothingAtFault + diagnosis.Suspects.Sum(s => s.Probability) >= 1 - 1e-9);
            Assert.Equal(
                diagnosis.Suspects.Select(s => s.Probability).OrderDescending(), diagnosis.Suspects.Select(s => s.Probability));
        });

    [Fact]
    public void The_order_of_the_series_does_not_matter_and_nothing_is_left_to_chance() =>
        Law.Holds(SoundChains, 14, 4, one =>
        {
            (DescribedChain described, SimulatedChain real, _) = Drawn(one);
            TestedSeries[] series = [Whole(described, real), real.Tested(new SetUp.HelmAlone(), [0, 10 * StepN], StepN)];

            Diagnosis forwards = Diagnosis.Of(described, series, MostDrawn);
            Diagnosis backwards = Diagnosis.Of(described, [.. series.Reverse()], MostDrawn);

            Assert.Equal(forwards.NothingAtFault, backwards.NothingAtFault);
            Assert.Equal(forwards.Suspects, backwards.Suspects);
            Assert.Equal(forwards.PartShares(), backwards.PartShares());
        });

    [Fact]
    public void Shares_of_the_effort_hold_the_effort_between_them() =>
        Law.Holds(SoundChains, 15, 8, one =>
        {
            (DescribedChain described, SimulatedChain real, _) = Drawn(one);
            Diagnosis diagnosis = Diagnosis.Of(described, [Whole(described, real)], MostDrawn);

            IReadOnlyList<PartShare> shares = diagnosis.PartShares();
            Spread effortN = diagnosis.EffortN(diagnosis.Load)!.Value;

            // In each chain the shares add to its effort, so the sums of their ends hold it.
            Assert.True(shares.Sum(s => s.BaselineN.Least) <= effortN.Least + 1e-6);
            Assert.True(shares.Sum(s => s.BaselineN.Most ?? double.PositiveInfinity) >= effortN.Most - 1e-6);
        });

    [Fact]
    public void A_test_is_expected_to_leave_no_more_in_question_and_its_outcomes_are_all_there_are() =>
        Law.Holds(SoundChains, 16, 6, one =>
        {
            (DescribedChain described, SimulatedChain real, _) = Drawn(one);

            IReadOnlyList<NextTest> next = Diagnosis.Of(described, [Whole(described, real)], MostDrawn).NextTests(StepN);

            Assert.All(next, test =>
            {
                Assert.InRange(test.InQuestionAfter, 1 - 1e-9, test.InQuestionNow);
                Assert.True(test.ExcessSpreadAfterN <= test.ExcessSpreadNowN + 1e-9);
                Assert.Equal(1, test.Outcomes.Sum(o => o.Probability), 9);
            });
        });

    [Fact]
    public void A_plan_stays_within_what_a_person_and_the_cable_bear_and_starts_where_it_holds() =>
        Law.Holds(SoundChains, 17, 60, one =>
        {
            DescribedChain described = Drawn(one).Described;
            described = described with { RatedPullN = 600, RatedPushN = 600 };
            LoadCase load = described.Loads[0];

            WeightPlan plan = WeightPlan.Of(described, load, StepN);

            CableCoefficients stiffest = described.Cable.At(BandEnd.High, described.WobbleRadPerM.High);
            Assert.Equal(0, plan.Weights[0].AddedN);
            Assert.All(plan.Weights, weight =>
            {
                Assert.True(weight.StartWithN <= weight.PredictedN.LowN);
                if (weight.AddedN > 0)
                {
                    // 50 lbf at the grip: common practice, no source.
                    Assert.True(weight.PredictedN.LikelyN <= 50 * Units.NewtonsPerLbf + 0.1);
                    Assert.True(
                        Effort.CoreForceN(described.Chain, stiffest, load with { ForceN = load.ForceN + weight.AddedN }) <= 600);
                }
            });
        });

    [Fact]
    public void A_cable_that_rubs_as_if_twice_its_angle_were_there_hides_as_much_again()
    {
        // A helm of ratio 1 and an arm of ratio 1 without losses, friction 0.1 stated exactly: one reading of e^0.4 times the load
        // is a friction of 0.4/Theta by hand (capstan law).
        DescribedChain plain = InventedChains.NoDevice;
        var bare = new DescribedChain(
            plain.Chain with
            {
                Helm = new Helm(0.1, 0.1, 1, 0, null),
                Arm = new Arm(0.1, 0.1, 1, 0),
            },
            [new LoadCase("lift", Direction.Pull, 0)],
            default,
            new CableBands(Band.Exactly(0.1), default, default, null),
            null,
            null,
            null);
        double effortN = 100 * Math.Exp(0.4);
        var series = new TestedSeries(
            new SetUp.WholeChain(bare.Loads[0]),
            new WeightSeries([new WeightReading(100, effortN * 0.999999, effortN * 1.000001)], 0));

        (double Least, double? Most) found = BehavingFriction.Of(bare, [series])!.Value;

        // A mechanism described without friction may have up to 2 N of it, which the friction then need not explain.
        double byHand = 0.4 / bare.Chain.Route.TotalBendRad;
        Assert.InRange(found.Most!.Value, byHand * 0.99999, byHand * 1.00001);
        Assert.InRange(found.Least, byHand * 0.9, byHand);
    }

    private static (DescribedChain Described, SimulatedChain Real, Random Random) Drawn((int Chain, int Seed) one)
    {
        DescribedChain described = InventedChains.All[one.Chain].Described;
        var random = new Random(one.Seed);
        return (described, ChainDraw.Sound(described, random), random);
    }

    private static TestedSeries Whole(DescribedChain described, SimulatedChain real) =>
        real.Tested(new SetUp.WholeChain(described.Loads[0]), [0, StepN, 2 * StepN, 4 * StepN], StepN);

    private static TestedSeries[] AllSetUps(DescribedChain described, SimulatedChain real)
    {
        Direction direction = described.Loads[0].Direction;
        double[] hungN = [0, StepN, 3 * StepN];
        return
        [
            Whole(described, real),
            real.Tested(new SetUp.CableOffAtArm(direction), hungN, StepN),
            real.Tested(new SetUp.HelmAlone(), hungN, StepN),
            real.Tested(new SetUp.ArmAlone(described.Loads[0]), hungN, StepN),
            real.Tested(new SetUp.CableAlone(direction, null), hungN, StepN),
            real.Tested(new SetUp.CableAlone(direction, new Coil(0.3, Math.PI)), hungN, StepN),
        ];
    }
}
