using CableCatalog.Benchmarks.Kernel;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Tests.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Routing.Proposals;
using CableCatalog.Routing.Space;
using CableCatalog.Tests.Support;
using MathNet.Numerics;

namespace CableCatalog.Benchmarks.Growth;

/// <summary>What a cost does as the work grows: t = c n^k, with k fitted over the sizes.</summary>
/// <param name="What">What grows.</param>
/// <param name="Sizes">How large.</param>
/// <param name="Microseconds">What each size takes, us.</param>
internal sealed record Grown(string What, IReadOnlyList<double> Sizes, IReadOnlyList<double> Microseconds)
{
    /// <summary>k, by least squares over the logarithms.</summary>
    public double Exponent => Fit.Line([.. Sizes.Select(size => Math.Log(size))], [.. Microseconds.Select(us => Math.Log(us))]).B;
}

/// <summary>Cost against the number of grades, bends, readings and obstacles.</summary>
internal static class GrowthBenchmark
{
    /// <summary>Measures each.</summary>
    public static IReadOnlyList<Grown> Run() =>
    [
        Of("grades (pull, cores known)", [1000, 4000, 16_000, 64_000, 256_000], Grades),
        Of("bends of the route (20,000 grades, cores known)", [2, 4, 8, 16, 32, 48], Bends),
        Of("readings of a weight test", [3, 6, 12, 24, 48], Readings),
        Of("obstacles in the way of a new route", [1, 2, 4, 8, 16], Obstacles),
    ];

    // The first time round warms up.
    private static Grown Of(string what, int[] sizes, Func<int, Action> work)
    {
        KernelClock.Best(work(sizes[0]));
        return new Grown(what, [.. sizes.Select(size => (double)size)], [.. sizes.Select(size => KernelClock.Best(work(size)))]);
    }

    private static Action Grades(int grades) => KernelClock.BestTen(InventedControls.Pulled, ManyGrades.Catalogue(grades, 7, 1));

    private static Action Bends(int bends) => KernelClock.BestTen(
        InventedControls.Pulled with { Chain = InventedControls.Pulled.Chain.Along(InventedControls.Route(bends)) },
        ManyGrades.Catalogue(20_000, 7, 1));

    private static Action Readings(int readings)
    {
        Installation installation = InventedControls.Pulled;
        var real = new SimulatedChain(installation.Chain, new CableCoefficients(0.17, 0.05, 0, 0, null));
        TestedSeries series = real.Tested(
            new SetUp.WholeChain(installation.Loads[0]), Enumerable.Range(0, readings).Select(i => i * 60.0 / readings), 4);
        return () => Diagnosis.Of(Catalog.WeightTests.Describing.Of(installation, null), [series]);
    }

    // Boxes in a field between the two ends, none of them at an end.
    private static Action Obstacles(int obstacles)
    {
        var random = new Random(3);
        Box[] boxes =
        [
            .. Enumerable.Range(0, obstacles).Select(_ =>
            {
                var corner = new Vec(0.6 + (2.4 * random.NextDouble()), -0.8 + (1.4 * random.NextDouble()), -0.3);
                return new Box(corner, corner + new Vec(0.15, 0.15, 0.6));
            }),
        ];
        var cable = new CableCoefficients(0.15, 0.05, 2, 0.7, new Core(0.1, 7e-4));
        var task = new RouteTask(
            new RouteEnd(new Vec(0, 0, 0), new Vec(1, 0, 0)),
            new RouteEnd(new Vec(4, 0.4, 0.2), new Vec(1, 0, 0)),
            boxes,
            [],
            0.02,
            0.2,
            route => CableMarch.InputForceN(route, cable, Direction.Pull, 150));
        return () => RouteProposer.Find(task, CancellationToken.None);
    }
}
