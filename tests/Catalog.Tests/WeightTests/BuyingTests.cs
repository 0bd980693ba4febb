using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.Tests.WeightTests;

/// <summary>What to buy after weight tests of chains of which everything is known.</summary>
public class BuyingTests
{
    private static readonly SimulatedChain BadHelm = InventedControl.Real(0.18, helmFrictionN: 64);

    private static readonly SimulatedChain WornLiner = InventedControl.Real(0.5);

    // The cable is sound on the floor, and rubs as if there were 3 rad of bend more on its route.
    private static readonly SimulatedChain HiddenBends = InventedControl.Real(0.18) is var sound
        ? sound with
        {
            Chain = sound.Chain with { Route = new CableRoute([.. sound.Chain.Route.Elements, new Bend(3, 0.25)]) },
        }
        : null!;

    [Fact]
    public void A_bad_helm_is_seen_to_before_a_cable_is_bought() =>
        Advises(new BestBuy(BuyVerdict.RepairFirst, null), Diagnosed(BadHelm), FaultKind.Helm);

    [Fact]
    public void Bends_stay_with_the_route_whatever_cable_is_bought() =>
        Advises(new BestBuy(BuyVerdict.RepairFirst, null), Diagnosed(HiddenBends), FaultKind.Bends);

    // A new one of the same grade, at less than a third of the other's price.
    [Fact]
    public void A_worn_liner_is_what_another_cable_mends() =>
        Advises(new BestBuy(BuyVerdict.LeastCostPerForceSaved, "plain"), Diagnosed(WornLiner), FaultKind.Liner);

    [Fact]
    public void Where_it_is_not_yet_clear_what_is_at_fault_a_test_comes_first()
    {
        Diagnosis diagnosis = Of(
            [BadHelm.Tested(new SetUp.WholeChain(InventedControl.Raise), [0, 20, 40], InventedControl.StepN)]);
        Assert.Equal(DiagnosisVerdict.BetweenParts, diagnosis.Verdict);
        Assert.Equal(new BestBuy(BuyVerdict.TestFirst, null), Advice(diagnosis));
    }

    // Before any reading it is as open as can be.
    [Fact]
    public void Where_it_is_not_yet_clear_whether_anything_is_at_fault_a_test_comes_first()
    {
        Diagnosis diagnosis = Of([]);
        Assert.Equal(DiagnosisVerdict.CannotTell, diagnosis.Verdict);
        Assert.Equal(new BestBuy(BuyVerdict.TestFirst, null), Advice(diagnosis));
    }

    [Fact]
    public void A_present_cable_that_meets_the_limit_is_kept_whatever_is_at_fault() =>
        Assert.Equal(new BestBuy(BuyVerdict.KeepPresentCable, null), Advice(Diagnosed(BadHelm), limitN: 1000));

    // The present grade is rated for a tenth of what the load puts on it.
    [Fact]
    public void A_present_cable_that_breaks_a_check_is_replaced_whatever_is_at_fault()
    {
        CatalogGrade weak = InventedControl.Plain with
        {
            Grade = InventedControl.Plain.Grade with { Ratings = InventedControl.Plain.Grade.Ratings with { RatedPullN = 20 } },
        };
        Assert.Equal(
            new BestBuy(BuyVerdict.ReplaceUnfitPresentCable, "plain"),
            InstallationScore.Of(
                InventedControl.Installation, weak, Catalog, Ranking.Price, Diagnosed(BadHelm), (1, null), default).BestBuy);
    }

    [Fact]
    public void What_nothing_explains_is_diagnosed_first()
    {
        var nothing = new WeightSeries([new WeightReading(0, 3, 4)], 0);
        Assert.Equal(
            new BestBuy(BuyVerdict.DiagnoseFirst, null),
            Advice(Of([new TestedSeries(new SetUp.WholeChain(InventedControl.Raise), nothing)])));
    }

    private static CatalogSnapshot Catalog => CatalogSnapshot.Of(1, [InventedControl.Plain, InventedControl.Smooth]);

    private static void Advises(BestBuy expected, Diagnosis diagnosis, FaultKind first)
    {
        Assert.Equal((DiagnosisVerdict.OnePart, first), (diagnosis.Verdict, diagnosis.Suspects[0].Fault.Kind));
        Assert.Equal(expected, Advice(diagnosis));
    }

    private static BestBuy Advice(Diagnosis diagnosis, double? limitN = null) => InstallationScore.Of(
        InventedControl.Installation with { EffortLimitN = limitN },
        InventedControl.Plain,
        Catalog,
        Ranking.Price,
        diagnosis,
        (1, null),
        default).BestBuy;

    private static Diagnosis Of(IReadOnlyList<TestedSeries> series) =>
        Diagnosis.Of(Describing.Of(InventedControl.Installation, InventedControl.Plain), series, mostDrawn: 16384);

    private static Diagnosis Diagnosed(SimulatedChain real) => Of(
    [
        real.Tested(new SetUp.WholeChain(InventedControl.Raise), [0, 20, 40], 2),
        real.Tested(new SetUp.HelmAlone(), [0, 100, 200], 2),
        real.Tested(new SetUp.ArmAlone(InventedControl.Raise), [0, 50, 100], 2),
        InventedControl.Real(real.Cable.Friction).Tested(
            new SetUp.CableAlone(Mechanics.Cables.Direction.Pull, new Coil(0.25, 4)), [50, 100], 2),
    ]);
}
