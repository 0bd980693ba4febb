using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Catalog.Tests.Options;

/// <summary>An invented control of which much could be changed, and of which little is known.</summary>
internal static class InventedOptions
{
    public static readonly Change Service = new(
        "service the helm", new ChangeEffect.Service(new TouchedPart(ChainPart.HelmBearing), 0.97, 1), Usd(9), Usd(40), null);

    public static readonly Change Grip = new("a longer grip", new ChangeEffect.Grip(0.45), Usd(30), null, null);

    public static readonly Change OtherGrip = new("a still longer grip", new ChangeEffect.Grip(0.5), Usd(45), null, null);

    /// <summary>Everything as it is stated, with an effort limit.</summary>
    public static Installation Exact(double? limitN = 60) => InventedControl.Installation with
    {
        WobbleRadPerM = Band.Exactly(0.05),
        Present = new PresentCable(null, Band.Exactly(0.2), default, default, null, null),
        EffortLimitN = limitN,
    };

    /// <summary>Everything a band: wobble, load and the present cable's friction.</summary>
    public static Installation Vague(double? limitN = 60) => Exact(limitN) with
    {
        WobbleRadPerM = new Band(0.03, 0.05, 0.09),
        Present = new PresentCable(null, new Band(0.14, 0.2, 0.32), default, default, null, null),
        Loads = [InventedControl.Raise with { RangeN = new Band(70, 80, 100) }],
    };

    /// <summary>A study with both invented grades.</summary>
    public static OptionStudy Study(
        Installation installation, decimal? valuePerNewton = null, double confidence = 0.8, params CatalogGrade[] grades) => OptionStudy.Of(
        installation,
        Baseline.Of(installation, null),
        grades.Length > 0 ? grades : [InventedControl.Plain, InventedControl.Smooth],
        new WeighingTerms("USD", null, 1, confidence, valuePerNewton),
        CancellationToken.None);

    /// <summary>A straighter way.</summary>
    public static OtherRoute Straighter(decimal labour) => new(
        "straighter",
        new KnownRoute(new CableRoute([new Straight(2), new Bend(Math.PI / 2, 0.3), new Straight(2.5)])),
        Usd(labour));

    public static Money Usd(decimal amount) => new(amount, "USD");
}
