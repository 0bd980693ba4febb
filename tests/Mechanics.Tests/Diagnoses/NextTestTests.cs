using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

public class NextTestTests
{
    private const int MostDrawn = 4096;

    [Fact]
    public void Outcomes_are_all_that_may_be_shown() => Law.Holds(TestedChains.Faulty, 582, 20, one =>
        Assert.All(Next(one, one.Whole), test =>
        {
            Assert.Equal(1, test.Outcomes.Sum(o => o.Probability), 1e-9);
            Assert.All(test.Outcomes, o => Assert.InRange(o.LeadingProbability, 0, 1));
            Assert.All(test.Outcomes.Zip(test.Outcomes.Skip(1)), pair =>
            {
                Assert.True(pair.First.ToN <= pair.Second.FromN * (1 + 1e-9));
                Assert.NotEqual(pair.First.Leading, pair.Second.Leading);
            });
        }));

    [Fact]
    public void Weights_are_hung_in_steps_from_nothing() => Law.Holds(TestedChains.FaultyPulled, 583, 10, one =>
        Assert.All(Next(one, one.Whole), test =>
        {
            Assert.Equal(0, test.HangN[0]);
            Assert.All(test.HangN, hungN => Assert.Equal(0, Math.IEEERemainder(hungN, TestedChain.StepN), 1e-9));
            Assert.Equal(test.HangN.Order(), test.HangN);
        }));

    // Half of the chains that are possible would pass what a hand moves safely, or one in twenty what the core is rated for, is not
    // asked for; held against the true chain, which is one of them, with room for its being among those few.
    [Fact]
    public void No_weight_is_asked_for_that_passes_the_rated_load_or_a_safe_force()
    {
        int asked = 0;
        int passed = 0;
        Law.Holds(TestedChains.SoundPulled, 585, 40, one =>
        {
            double ratedN = 1.3 * one.Truth.ForceN(new SetUp.CableOffAtArm(one.Load.Direction), one.Load.ForceN);
            TestedChain rated = one with { Described = one.Described with { RatedPullN = ratedN } };
            foreach (NextTest test in Next(rated, rated.Whole))
            {
                double coreN = test.SetUp switch
                {
                    SetUp.WholeChain or SetUp.CableOffAtArm => CoreN(one, test),
                    SetUp.CableAlone => one.Truth.ForceN(test.SetUp, test.HangN[^1]),
                    _ => 0,
                };
                asked++;
                passed += coreN > ratedN || one.Truth.ForceN(test.SetUp, test.HangN[^1]) > WeightPlan.StopAtN(test.SetUp) ? 1 : 0;
                Assert.True(test.HangN[^1] <= WeightPlan.MostHungN, $"{test.HangN[^1]}");
                Assert.All(test.HangN.Zip(test.StartWithN), pair => Assert.True(
                    pair.Second <= one.Truth.ForceN(test.SetUp, pair.First) * (1 + Prior.ModelError), $"start with {pair.Second}"));
            }
        });
        Assert.InRange(passed, 0, asked / 10);

        // By the formulas of the march: what the arm's side puts on the core, through the cable.
        static double CoreN(TestedChain one, NextTest test)
        {
            double outputN = test.SetUp is SetUp.WholeChain
                ? one.Truth.ForceN(new SetUp.ArmAlone(one.Load), test.HangN[^1])
                : test.HangN[^1];
            return CableMarch.InputForceN(one.Truth.Chain.Route, one.Truth.Cable, one.Load.Direction, outputN);
        }
    }

    [Fact]
    public void What_was_just_tested_is_not_asked_for_again() => Law.Holds(TestedChains.FaultyPulled, 584, 20, one =>
    {
        if (Next(one, one.Whole) is [var first, ..]
            && Next(one, one.Whole, one.Truth.Tested(first.SetUp, first.HangN, TestedChain.StepN)) is [var second, ..])
        {
            Assert.False(first.SetUp == second.SetUp && first.HangN.SequenceEqual(second.HangN), $"{first.SetUp} again");
        }
    });

    // A device at the helm end is in every test of the helm: what is hung on the helm alone goes through it.
    [Fact]
    public void A_part_that_is_not_there_is_not_asked_for() =>
        Assert.DoesNotContain(
            Diagnosis.Of(InventedChains.NoDevice, [], MostDrawn).NextTests(TestedChain.StepN),
            test => test.SetUp is SetUp.DeviceAlone);

    [Fact]
    public void Where_no_chain_is_possible_no_test_helps()
    {
        var impossible = new TestedSeries(
            new SetUp.WholeChain(InventedChains.NoDevice.Loads[0]), new WeightSeries([new WeightReading(0, 0, 1)], 0));
        Diagnosis diagnosis = Diagnosis.Of(InventedChains.NoDevice, [impossible], MostDrawn);
        Assert.Equal(DiagnosisVerdict.NotExplained, diagnosis.Verdict);
        Assert.Empty(diagnosis.NextTests(TestedChain.StepN));
        Assert.Empty(diagnosis.PartShares());
        Assert.Empty(diagnosis.Settings());
        Assert.Null(diagnosis.NothingAtFault);
        Assert.All(diagnosis.Suspects, suspect => Assert.Null(suspect.Probability));
    }

    private static IReadOnlyList<NextTest> Next(TestedChain one, params TestedSeries[] series) =>
        Diagnosis.Of(one.Described, series, MostDrawn).NextTests(TestedChain.StepN);
}
