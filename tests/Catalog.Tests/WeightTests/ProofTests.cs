using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Tests.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.Tests.WeightTests;

/// <summary>Proof after a new cable, held against chains of which everything is known.</summary>
public class ProofTests
{
    private static readonly SimulatedChain Before = InventedControl.Real(0.34);

    [Fact]
    public void A_cable_that_does_as_its_grade_says_keeps_its_promise()
    {
        Proof proof = ProofOf(InventedControl.Real(0.06), stepN: 2);

        Assert.True(proof.Verdict is PromiseVerdict.Kept or PromiseVerdict.MayBeKept, $"{proof.Verdict}");
    }

    [Fact]
    public void A_cable_that_rubs_four_times_as_much_does_worse_than_promised() =>
        Assert.Equal(PromiseVerdict.Worse, ProofOf(InventedControl.Real(0.24), stepN: 2).Verdict);

    [Fact]
    public void A_cable_without_friction_does_better_than_promised() =>
        Assert.Equal(PromiseVerdict.Better, ProofOf(InventedControl.Real(0.002), stepN: 2).Verdict);

    [Fact]
    public void What_was_really_saved_lies_between_the_bounds()
    {
        SimulatedChain after = InventedControl.Real(0.06);

        Proof proof = ProofOf(after, stepN: 5);

        double trueN = Effort.AtGripN(Before.Chain, Before.Cable, InventedControl.Raise)
            - Effort.AtGripN(after.Chain, after.Cable, InventedControl.Raise);
        Assert.InRange(trueN, proof.SavedN!.Value.Least, proof.SavedN.Value.Most!.Value);
        Assert.InRange(
            proof.SavedN.Value.Quantiles!.Value.Median, proof.SavedN.Value.Least, proof.SavedN.Value.Most.Value);
    }

    [Fact]
    public void Cost_for_each_newton_is_the_cost_over_what_was_saved()
    {
        Proof proof = ProofOf(InventedControl.Real(0.06), stepN: 5);

        (Money? atMost, Money? atLeast, Money? atMiddle) = proof.CostPerNewton;
        Assert.Equal(210 / proof.SavedN!.Value.Most!.Value, (double)atMost!.Value.Amount, 8);
        Assert.Equal(210 / proof.SavedN.Value.Least, (double)atLeast!.Value.Amount, 8);
        Assert.Equal(210 / proof.SavedN.Value.Quantiles!.Value.Median, (double)atMiddle!.Value.Amount, 8);
    }

    [Fact]
    public void A_test_in_which_nothing_moved_bounds_no_saving()
    {
        var held = new TestedSeries(
            new SetUp.WholeChain(InventedControl.Raise), new WeightSeries([new WeightReading(0, 5, null)], 0));

        Proof proof = ProofOf([held]);

        Assert.Null(proof.SavedN);
        Assert.Equal((null, null, null), proof.CostPerNewton);
    }

    private static Proof ProofOf(SimulatedChain after, double stepN) =>
        ProofOf([after.Tested(new SetUp.WholeChain(InventedControl.Raise), [0, 20, 40], stepN)]);

    private static Proof ProofOf(IReadOnlyList<TestedSeries> after)
    {
        Diagnosis diagnosis = Diagnosis.Of(
            Describing.Of(InventedControl.Installation, InventedControl.Plain),
            InventedControl.Tested(Before),
            mostDrawn: 16384);
        return Proof.Of(
            InventedControl.Installation,
            InventedControl.Smooth,
            InventedControl.Plain,
            diagnosis,
            after,
            new Money(210, "USD"));
    }
}
