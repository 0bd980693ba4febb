using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
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

    // Its bends are of 0.25 and 0.3 m.
    [Fact]
    public void A_grade_for_which_a_bend_is_too_tight_promises_nothing()
    {
        CatalogGrade stiff = InventedControl.Smooth with
        {
            Grade = InventedControl.Smooth.Grade with
            {
                Ratings = InventedControl.Smooth.Grade.Ratings with { MinBendRadiusM = 0.28 },
            },
        };

        Proof proof = ProofOf(
            InventedControl.Installation,
            [InventedControl.Real(0.02).Tested(new SetUp.WholeChain(InventedControl.Raise), [0, 20, 40], 2)],
            stiff);

        CaseProof one = Assert.Single(proof.Cases);
        Assert.Equal((null, null, PromiseVerdict.CannotTell), (one.PromisedN, one.PromisedSavedN, proof.Verdict));
        Assert.NotNull(proof.SavedN);
    }

    [Fact]
    public void What_is_promised_to_be_saved_agrees_with_the_efforts()
    {
        Diagnosis before = DiagnosisOf(InventedControl.Tested(Before));
        Baseline baseline = Baseline.Of(InventedControl.Installation, InventedControl.Plain, before);

        CaseProof one = Assert.Single(ProofOf(InventedControl.Real(0.06), stepN: 2).Cases);

        DiagnosedBaselineTests.AssertAgree(baseline.Cases[0].EffortN, one.PromisedN!.Value, one.PromisedSavedN!.Value);
    }

    // Before 100 to 110 and 90 to 120, so the worst is 100 to 120; after 40 to 50 and 30 to 60, so 40 to 60 (by hand).
    [Fact]
    public void The_worst_case_before_and_after_is_bounded_by_both_cases()
    {
        Proof proof = TwoCases((100, 110), (90, 120), (40, 50), (30, 60));

        Assert.Equal((40, 80), (Math.Round(proof.SavedN!.Value.Least, 9), Math.Round(proof.SavedN.Value.Most!.Value, 9)));
    }

    [Fact]
    public void A_case_that_nothing_bounds_from_above_leaves_the_worst_unbounded()
    {
        Assert.Null(TwoCases((100, 110), (90, null), (40, 50), (30, 60)).SavedN!.Value.Most);
        Assert.Null(TwoCases((100, 110), (90, 120), (40, 50), (30, null)).SavedN);
    }

    [Fact]
    public void Where_the_readings_of_one_case_contradict_each_other_nothing_is_said_of_the_worst()
    {
        // With 10 N hung it moved at less than it held with nothing hung.
        var torn = new WeightSeries([new WeightReading(0, 50, 60), new WeightReading(10, 20, 30)], 0);

        Proof proof = ProofOf(
            TwoLoads,
            [
                Read(InventedControl.Raise, (40, 50)),
                new TestedSeries(new SetUp.WholeChain(Hold), torn),
            ],
            InventedControl.Smooth,
            [Read(InventedControl.Raise, (100, 110)), Read(Hold, (90, 120))]);

        Assert.NotNull(proof.Cases[0].SavedN);
        Assert.Null(proof.Cases[1].AfterN);
        Assert.Null(proof.SavedN);
    }

    // What tells most is read last, after more readings than a series holds.
    [Fact]
    public void No_reading_is_dropped_however_many_there_are()
    {
        var load = new SetUp.WholeChain(InventedControl.Raise);
        WeightReading[] coarse = [.. Enumerable.Repeat(new WeightReading(0, 20, 90), WeightSeries.MostReadings - 1)];

        Proof proof = ProofOf(
        [
            new TestedSeries(load, new WeightSeries(coarse, 0)),
            new TestedSeries(load, new WeightSeries([new WeightReading(0, 20, 90), new WeightReading(0, 54, 55)], 0)),
        ]);

        Assert.Equal((54, 55), (proof.Cases[0].AfterN!.Value.Least, proof.Cases[0].AfterN!.Value.Most));
    }

    private static readonly LoadCase Hold = new("hold", Mechanics.Cables.Direction.Pull, 60);

    private static readonly Installation TwoLoads = InventedControl.Installation with { Loads = [InventedControl.Raise, Hold] };

    private static TestedSeries Read(LoadCase load, (double Held, double? Moved) read) =>
        new(new SetUp.WholeChain(load), new WeightSeries([new WeightReading(0, read.Held, read.Moved)], 0));

    private static Proof TwoCases(
        (double, double?) before, (double, double?) holdBefore, (double, double?) after, (double, double?) holdAfter) => ProofOf(
        TwoLoads,
        [Read(InventedControl.Raise, after), Read(Hold, holdAfter)],
        InventedControl.Smooth,
        [Read(InventedControl.Raise, before), Read(Hold, holdBefore)]);

    private static Proof ProofOf(SimulatedChain after, double stepN) =>
        ProofOf([after.Tested(new SetUp.WholeChain(InventedControl.Raise), [0, 20, 40], stepN)]);

    private static Proof ProofOf(IReadOnlyList<TestedSeries> after) =>
        ProofOf(InventedControl.Installation, after, InventedControl.Smooth);

    private static Proof ProofOf(
        Installation installation,
        IReadOnlyList<TestedSeries> after,
        CatalogGrade grade,
        IReadOnlyList<TestedSeries>? before = null) => Proof.Of(
        installation,
        grade,
        InventedControl.Plain,
        DiagnosisOf(before ?? InventedControl.Tested(Before), installation),
        after,
        new Money(210, "USD"));

    private static Diagnosis DiagnosisOf(IReadOnlyList<TestedSeries> series, Installation? installation = null) => Diagnosis.Of(
        Describing.Of(installation ?? InventedControl.Installation, InventedControl.Plain), series, mostDrawn: 16384);
}
