using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Tests.Diagnoses;

namespace CableCatalog.Catalog.Tests.WeightTests;

/// <summary>Savings counted from a weight test, held against chains of which everything is known.</summary>
public class DiagnosedBaselineTests
{
    [Fact]
    public void The_effort_of_the_present_cable_is_what_was_measured()
    {
        SimulatedChain real = InventedControl.Real(0.34);

        Baseline baseline = BaselineOf(real);

        Assert.Equal(BaselineBasis.Diagnosed, baseline.Basis);
        double trueN = Effort.AtGripN(real.Chain, real.Cable, InventedControl.Raise);
        Assert.InRange(baseline.WorstEffortN.LowN, trueN - InventedControl.StepN - 3, trueN + 3);
        Assert.InRange(baseline.WorstEffortN.HighN, trueN - 3, trueN + InventedControl.StepN + 3);
    }

    // The band told runs from the 5 % to the 95 % of what is possible, so nine in ten is what it claims; that the smooth grade
    // has a band of its own makes it a little wider.
    [Fact]
    public void The_saving_of_a_smooth_cable_is_in_the_band_told_for_nine_in_ten_worn_cables()
    {
        const int Cables = 60;
        double[] frictions = [.. Enumerable.Range(0, Cables).Select(i => 0.26 + (0.2 * (i + 0.5) / Cables))];

        double[] missed =
        [
            .. frictions.Where(friction =>
            {
                SimulatedChain real = InventedControl.Real(friction);
                Economics.Savings.Saving told = Told(real);
                return TrueSavingN(real) < told.LowN || TrueSavingN(real) > told.HighN;
            }),
        ];

        Assert.True(missed.Length <= Cables / 10, $"missed {missed.Length} of {Cables}: {string.Join(' ', missed)}");
    }

    [Fact]
    public void A_bad_helm_does_not_make_a_cable_look_like_a_saving()
    {
        // The cable is as its grade says; the helm takes 60 N more than it should.
        SimulatedChain real = InventedControl.Real(0.18, helmFrictionN: 64);

        Economics.Savings.Saving told = Told(real);

        Assert.InRange(TrueSavingN(real), told.LowN, told.HighN);
        double excessN = 60;
        Assert.True(told.LikelyN < TrueSavingN(real) + (excessN / 3), $"{told} of a true {TrueSavingN(real):0.0} N");
    }

    [Fact]
    public void Readings_that_nothing_gives_are_unexplained_and_price_nothing()
    {
        // A quarter of what the load alone takes without any friction: 80 N x (0.2/0.09) x (0.03/0.36) is 14.8 N (by hand).
        var series = new Mechanics.WeightTests.TestedSeries(
            new Mechanics.WeightTests.SetUp.WholeChain(InventedControl.Raise),
            new Mechanics.WeightTests.WeightSeries([new Mechanics.WeightTests.WeightReading(0, 3, 4)], 0));
        Diagnosis diagnosis = Diagnosis.Of(Describing.Of(InventedControl.Installation, InventedControl.Plain), [series], 4096);

        Baseline baseline = Baseline.Of(InventedControl.Installation, InventedControl.Plain, diagnosis);

        Assert.Equal(BaselineBasis.Unexplained, baseline.Basis);
        Assert.Equal((3.0, 3.5, 4.0), (baseline.WorstEffortN.LowN, baseline.WorstEffortN.LikelyN, baseline.WorstEffortN.HighN));
        Assert.Null(GradeScore.Of(InventedControl.Installation, baseline, InventedControl.Smooth).Saving);
    }

    [Theory]
    [InlineData(0.34, 4)]
    [InlineData(0.18, 64)]
    [InlineData(0.18, 4)]
    [InlineData(0.26, 30)]
    public void On_one_row_present_grade_and_saving_do_not_contradict_each_other(double friction, double helmFrictionN)
    {
        Baseline baseline = BaselineOf(InventedControl.Real(friction, helmFrictionN));
        foreach (CatalogGrade grade in new[] { InventedControl.Smooth, InventedControl.Plain })
        {
            GradeScore score = GradeScore.Of(InventedControl.Installation, baseline, grade);
            AssertAgree(baseline.WorstEffortN, score.WorstEffortN, score.Saving!.Value);
        }
    }

    // Every chain that may be there gives one present effort p in the first band, efforts g to G in the second and savings p - G
    // to p - g: so the least saving is at most p - G of the chain with the largest G, and so on.
    internal static void AssertAgree(ForceBand presentN, ForceBand gradeN, Economics.Savings.Saving saved)
    {
        const double RoundingN = 1e-9;
        string row = $"present {presentN}, grade {gradeN}, saved {saved}";
        Assert.True(saved.LowN <= Math.Min(presentN.HighN - gradeN.HighN, presentN.LowN - gradeN.LowN) + RoundingN, row);
        Assert.True(saved.LowN >= presentN.LowN - gradeN.HighN - RoundingN, row);
        Assert.True(saved.HighN >= Math.Max(presentN.HighN - gradeN.HighN, presentN.LowN - gradeN.LowN) - RoundingN, row);
        Assert.True(saved.HighN <= presentN.HighN - gradeN.LowN + RoundingN, row);
        Assert.Equal(presentN.LikelyN - gradeN.LikelyN, saved.LikelyN, 9);
        Assert.InRange(saved.LikelyN, saved.LowN, saved.HighN);
    }

    private static Baseline BaselineOf(SimulatedChain real) => Baseline.Of(
        InventedControl.Installation,
        InventedControl.Plain,
        Diagnosis.Of(
            Describing.Of(InventedControl.Installation, InventedControl.Plain), InventedControl.Tested(real), mostDrawn: 16384));

    private static Economics.Savings.Saving Told(SimulatedChain real) =>
        GradeScore.Of(InventedControl.Installation, BaselineOf(real), InventedControl.Smooth).Saving!.Value;

    private static double TrueSavingN(SimulatedChain real) =>
        Effort.AtGripN(real.Chain, real.Cable, InventedControl.Raise)
        - Effort.AtGripN(real.Chain, real.Cable with { Friction = 0.06 }, InventedControl.Raise);
}
