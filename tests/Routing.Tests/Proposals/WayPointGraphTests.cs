using CableCatalog.Routing.Proposals;
using CableCatalog.Routing.Space;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Routing.Tests.Proposals;

/// <summary>The way around a box is the cheapest there is on the graph.</summary>
public class WayPointGraphTests
{
    private const double AwayM = 0.1;

    // Bellman and Ford's algorithm, which relaxes every step until none is cheaper, is the reference (R. Bellman, On a routing problem,
    // Quarterly of Applied Mathematics 16, 1958; from memory).
    [Fact]
    public void No_way_on_the_graph_is_cheaper()
    {
        (int around, int avoiding) = (0, 0);
        Law.Holds(
            Gen.Select(Gen.Double[-1, 1].Array[6], Draw.Direction, Draw.Direction, Gen.Int[0, 3], Gen.Double[0.02, 0.5]),
            seed: 122,
            count: 60,
            one =>
            {
                (double[] at, Vec leaving, Vec arriving, int given, double perM) = one;
                var box = new Box(new Vec(1, -0.5, -0.4), new Vec(1.6, 0.7, 0.5));
                var from = new Vec(-0.2, at[0], at[1]);
                var to = new Vec(3, at[2], at[3]);
                Vec? fromDirection = (given & 1) == 0 ? null : leaving;
                Vec? toDirection = (given & 2) == 0 ? null : arriving;
                Vec[] places = [from, to, .. box.Grown(AwayM).WayPoints()];
                HashSet<Vec> avoided = [places[2 + (int)((at[4] + 1) * 9)], places[2 + (int)((at[5] + 1) * 9)]];

                IReadOnlyList<Vec> way = new WayPointGraph([box], AwayM).Between(from, fromDirection, to, toDirection, perM, avoided)!;
                if (way.Count == 0)
                {
                    Assert.Equal(0, box.InsideM(from, to));
                    return;
                }

                double found = CostOf([from, .. way, to], fromDirection, toDirection, perM, avoided);
                double cheapest = Cheapest(places, box, fromDirection, toDirection, perM, avoided);
                Close.To(cheapest, found, 1e-12 * (1 + cheapest));
                around++;
                avoiding += way.Any(avoided.Contains) ? 0 : 1;
            });
        Assert.True(around > 30 && avoiding > 10, $"{around} around, {avoiding} of them past what is to be avoided");
    }

    private static double CostOf(Vec[] whole, Vec? fromDirection, Vec? toDirection, double perM, HashSet<Vec> avoided)
    {
        (double cost, Vec? before) = (0, fromDirection);
        foreach ((Vec from, Vec to) in whole.Zip(whole.Skip(1)))
        {
            cost += StepCost(before, to - from, perM) + (avoided.Contains(to) ? Math.PI / 2 : 0);
            before = to - from;
        }

        return cost + (toDirection is { } arriving ? StepCost(before, arriving, 0) : 0);
    }

    private static double StepCost(Vec? before, Vec next, double perM) =>
        (before is { } direction ? Points.AngleRad(direction, next) : 0) + (perM * next.Length);

    private static double Cheapest(Vec[] places, Box box, Vec? fromDirection, Vec? toDirection, double perM, HashSet<Vec> avoided)
    {
        int n = places.Length;
        bool Free(int i, int j) => i != j && i != 1 && j != 0 && box.InsideM(places[i], places[j]) == 0;
        double Ahead(int j) => avoided.Contains(places[j]) ? Math.PI / 2 : 0;
        var cost = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                cost[i, j] = i == 0 && Free(0, j)
                    ? StepCost(fromDirection, places[j] - places[0], perM) + Ahead(j)
                    : double.PositiveInfinity;
            }
        }

        for (bool changed = true; changed;)
        {
            changed = false;
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    for (int k = 0; k < n && double.IsFinite(cost[i, j]); k++)
                    {
                        double through = Free(j, k)
                            ? cost[i, j] + StepCost(places[j] - places[i], places[k] - places[j], perM) + Ahead(k)
                            : double.PositiveInfinity;
                        if (through < cost[j, k])
                        {
                            (cost[j, k], changed) = (through, true);
                        }
                    }
                }
            }
        }

        return Enumerable.Range(0, n).Where(i => double.IsFinite(cost[i, 1])).Min(i => cost[i, 1]
            + (toDirection is { } arriving ? StepCost(places[1] - places[i], arriving, 0) : 0));
    }
}
