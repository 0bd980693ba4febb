using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Benchmarks.Kernel;

/// <summary>An invented control: five bends, 340 degrees in all, a device at the arm, a present cable of which a friction is stated.</summary>
internal static class InventedControls
{
    /// <summary>Pulled only.</summary>
    public static readonly Installation Pulled = Of(new LoadCase("raise", Direction.Pull, 75));

    /// <summary>Pulled one way and pushed the other.</summary>
    public static readonly Installation Pushed = Of(new LoadCase("raise", Direction.Pull, 75), new LoadCase("lower", Direction.Push, 30));

    private static Installation Of(params LoadCase[] loads) => new(
        new Chain(
            new Helm(0.356, 0.076, 0.95, 4.4, CrankSweep.Centred(1.2)),
            Route(5),
            [new InlineDevice("reducer", CableEnd.Arm, 1, 0.85, 2.7)],
            new Arm(0.2, 0.09, 0.92, 3.6)),
        new Band(0.03, 0.05, 0.08),
        0.2,
        loads,
        new PresentCable(null, Band.Exactly(0.17), default, default, null, null),
        90,
        []);

    /// <summary>A route with some bends of 68 degrees and straights between.</summary>
    public static CableRoute Route(int bends) => new(
        [new Straight(0.8), .. Enumerable.Range(0, bends).SelectMany(_ => new RouteElement[] { new Bend(1.187, 0.29), new Straight(0.7) })]);
}
