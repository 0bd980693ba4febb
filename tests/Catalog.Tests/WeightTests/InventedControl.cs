using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.Tests.WeightTests;

/// <summary>An invented control with two invented grades, and chains that are really there.</summary>
internal static class InventedControl
{
    public const double StepN = 4;

    public static readonly LoadCase Raise = new("raise", Direction.Pull, 80);

    private static readonly Chain Chain = new(
        new Helm(0.36, 0.03, 0.95, 4, null),
        new CableRoute(
        [
            new Straight(1), new Bend(Math.PI / 2, 0.25), new Straight(2), new Bend(Math.PI / 2, 0.3), new Straight(1.5),
            new Bend(Math.PI / 2, 0.25), new Straight(1),
        ]),
        [],
        new Arm(0.2, 0.09, 0.92, 3));

    public static readonly CatalogGrade Plain = Grade("plain", new Band(0.14, 0.18, 0.24), 60);

    public static readonly CatalogGrade Smooth = Grade("smooth", new Band(0.05, 0.06, 0.08), 200);

    public static readonly Installation Installation = new(
        Chain, new Band(0.03, 0.05, 0.08), 0, [Raise], new PresentCable("plain", null, default, default, null, null), null, []);

    /// <summary>The chain with a cable of some friction, and a helm with some constant friction.</summary>
    public static SimulatedChain Real(double friction, double helmFrictionN = 4) => new(
        Chain with { Helm = Chain.Helm with { FrictionN = helmFrictionN } },
        new CableCoefficients(friction, 0.05, 0, 0, null));

    /// <summary>A test of the whole chain and one of the helm alone.</summary>
    public static TestedSeries[] Tested(SimulatedChain real) =>
    [
        real.Tested(new SetUp.WholeChain(Raise), [0, 20, 40], StepN),
        real.Tested(new SetUp.HelmAlone(), [0, 250, 500], StepN),
    ];

    private static CatalogGrade Grade(string id, Band friction, decimal price) => new(
        new Grade(
            id,
            id,
            "",
            "",
            CoefficientBasis.Assumed,
            new CableBands(friction, default, default, null),
            null,
            new CableRatings(0.2, new LengthsMade(1, 20, 0.5), null, null, null, CoreConstruction.Stranded),
            new PriceRule(new Money(price, "USD"), new Money(0, "USD"), new Money(0, "USD"), new DateOnly(2026, 1, 1))),
        1,
        default,
        default);
}
