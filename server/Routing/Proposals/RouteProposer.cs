using CableCatalog.Mechanics;
using CableCatalog.Routing.Space;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace CableCatalog.Routing.Proposals;

/// <summary>Proposes a route of straights and bends with the least effort that was found.</summary>
/// <remarks>Way points around the boxes come from a graph (<see cref="WayPointGraph"/>), ends that turn far from an arc, a straight and
/// an arc; each such sketch is then moved about by the simplex method of Nelder and Mead (The Computer Journal 7, 1965; MathNet.Numerics)
/// from several starts, without chance. What is guaranteed: a route that is returned keeps radius, clearance, ends and clamps, and is
/// no worse than any sketch it was made from. What is not: that it is the best there is, or that there is none where none was found.
/// The floor (<see cref="Floors.LeastBend"/>) is what no route can beat.</remarks>
public static class RouteProposer
{
    private const int SketchSteps = 400;
    private const int PolishSteps = 1000;
    private const int Sketched = 12;
    private const int Polished = 3;

    /// <summary>The best route that was found; null where none was.</summary>
    /// <param name="task">What is asked. Its ends are not in one place.</param>
    /// <param name="cancellation">Gives up between two sketches.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static ProposedRoute? Find(RouteTask task, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(task);
        var judgement = new Judgement(task);
        var moved = new List<(Sketch Sketch, double[] Numbers, double Worth)>();
        foreach ((Sketch sketch, double[] numbers) in Promising(task, judgement))
        {
            cancellation.ThrowIfCancellationRequested();
            moved.Add(Moved(sketch, numbers, judgement, task.MinBendRadiusM / 2, SketchSteps));
        }

        foreach ((Sketch sketch, double[] numbers, _) in moved.OrderBy(m => m.Worth).Take(Polished))
        {
            cancellation.ThrowIfCancellationRequested();
            double[] again = Moved(sketch, numbers, judgement, task.MinBendRadiusM, PolishSteps).Numbers;
            Moved(sketch, again, judgement, task.MinBendRadiusM / 8, PolishSteps);
        }

        return judgement.Best;
    }

    /// <summary>What alone makes a route possible: every box and every clamp left out, a smaller clearance, a smaller radius; those for
    /// which one was found.</summary>
    /// <param name="task">A task for which none was.</param>
    /// <param name="cancellation">Gives up between two of them.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static IReadOnlyList<Relaxation> Relaxations(RouteTask task, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(task);
        IEnumerable<Relaxation> each =
        [
            .. Enumerable.Range(0, task.Boxes.Count).Select(i => new Relaxation.WithoutBox(i)),
            .. Enumerable.Range(0, task.Clamps.Count).Select(i => new Relaxation.WithoutClamp(i)),
        ];
        return
        [
            .. each.Where(one => Exists(one.Of(task), cancellation)),
            .. FirstThatDoes([0.75, 0.5, 0.25, 0.0], share => new Relaxation.Clearance(task.ClearanceM * share)),
            .. FirstThatDoes(
                [.. new[] { 0.8, 0.6, 0.4, 0.2 }.Where(share => task.MinBendRadiusM * share >= Limits.BendRadiusM.Least)],
                share => new Relaxation.Radius(task.MinBendRadiusM * share)),
        ];

        IEnumerable<Relaxation> FirstThatDoes(double[] shares, Func<double, Relaxation> of) =>
            shares.Select(of).Where(one => Exists(one.Of(task), cancellation)).Take(1);
    }

    private static (Sketch Sketch, double[] Numbers)[] Promising(RouteTask task, Judgement judgement) =>
    [
        .. Sketches(task)
            .OrderBy(s => judgement.Of(s.Sketch.Corners(s.Numbers)))
            .Take(Sketched),
    ];

    private static bool Exists(RouteTask task, CancellationToken cancellation)
    {
        var judgement = new Judgement(task);
        foreach ((Sketch sketch, double[] numbers) in Promising(task, judgement))
        {
            cancellation.ThrowIfCancellationRequested();
            Moved(sketch, numbers, judgement, task.MinBendRadiusM / 2, SketchSteps);
            if (judgement.Best is not null)
            {
                return true;
            }
        }

        return false;
    }

    private static (Sketch Sketch, double[] Numbers, double Worth) Moved(
        Sketch sketch, double[] numbers, Judgement judgement, double stepM, int steps)
    {
        (double least, double[] best) = (judgement.Of(sketch.Corners(numbers)), numbers);
        IObjectiveFunction worth = ObjectiveFunction.Value(at =>
        {
            double[] tried = at.ToArray();
            double value = judgement.Of(sketch.Corners(tried));
            if (value < least)
            {
                (least, best) = (value, tried);
            }

            return value;
        });
        try
        {
            NelderMeadSimplex.Minimum(
                worth,
                Vector<double>.Build.Dense(numbers),
                Vector<double>.Build.Dense(numbers.Length, stepM),
                1e-9,
                steps);
        }
        catch (MaximumIterationsException)
        {
            // The best of as many steps is what was wanted.
        }

        return (sketch, best, least);
    }

    private static IEnumerable<(Sketch Sketch, double[] Numbers)> Sketches(RouteTask task)
    {
        double radiusM = task.MinBendRadiusM;
        Box[] grown = [.. task.Boxes.Select(box => box.Grown(task.ClearanceM))];
        foreach (IReadOnlyList<Vec>[] ways in Ways(task, grown))
        {
            // Short and long first straights: what a wide bend needs of them.
            foreach (double reach in new[] { 1.2, 3 })
            {
                yield return Sketch.Of(task, ways, reach * radiusM, reach * radiusM, radiusM);
            }

            // A corner more on the way, for what one cannot do.
            if (ways.Sum(way => way.Count) == 0 && task.Clamps.Count == 0)
            {
                Vec middle = (task.HelmEnd.At + task.ArmEnd.At) * 0.5;
                yield return Sketch.Of(task, [[middle]], 1.2 * radiusM, 1.2 * radiusM, radiusM);
            }

            foreach (double wide in new[] { 1 + 2e-7, 1.5 })
            {
                foreach (Vec leaving in SidesAt(task.HelmEnd, task))
                {
                    foreach (Vec arriving in SidesAt(task.ArmEnd, task))
                    {
                        if (Turned(task, ways, wide * radiusM, leaving, arriving) is { } turned)
                        {
                            yield return turned;
                        }
                    }
                }
            }
        }
    }

    // Where an end points nearly straight away from the other, the far way round may take less; straight away, any side may.
    private static Vec[] SidesAt(RouteEnd end, RouteTask task)
    {
        Vec chord = task.ArmEnd.At - task.HelmEnd.At;
        double turnRad = Points.AngleRad(end.Direction, chord);
        return turnRad > Math.PI - 0.1
            ? [Vec.UnitX, Vec.UnitY, Vec.UnitZ, -Vec.UnitX, -Vec.UnitY, -Vec.UnitZ]
            : (TangentPolygon.Across(end.Direction, chord), turnRad) switch
            {
                ({ } near, > 2.4) => [near, -near],
                ({ } near, _) => [near],
                _ => [Vec.UnitX],
            };
    }

    // Arc, straight (or what leads around the boxes), arc: the corners of the arcs become way points.
    private static (Sketch Sketch, double[] Numbers)? Turned(
        RouteTask task, IReadOnlyList<Vec>[] ways, double radiusM, Vec leavingSide, Vec arrivingSide)
    {
        Vec first = ways[0].Count > 0 ? ways[0][0] : task.Clamps.Count > 0 ? task.Clamps[0] : task.ArmEnd.At;
        Vec last = ways[^1].Count > 0 ? ways[^1][^1] : task.Clamps.Count > 0 ? task.Clamps[^1] : task.HelmEnd.At;
        bool isFree = ways.Length == 1 && ways[0].Count == 0;
        var back = new RouteEnd(task.ArmEnd.At, -task.ArmEnd.Direction);
        // Seen backwards the cable arrives on the other side of the chord.
        var leaving = new TangentPolygon([], task.HelmEnd.At, leavingSide);
        var arriving = new TangentPolygon([], task.ArmEnd.At, -arrivingSide);
        for (int round = 0; round < 40; round++)
        {
            Vec towards = (isFree ? arriving.End : first) - leaving.End;
            Vec from = (isFree ? leaving.End : last) - arriving.End;
            if (towards.Length < Points.CoincidentM || from.Length < Points.CoincidentM)
            {
                return null;
            }

            leaving = TangentPolygon.Of(task.HelmEnd, towards, radiusM, leaving.Inward);
            arriving = TangentPolygon.Of(back, from, radiusM, arriving.Inward);
        }

        if (leaving.Corners.Count + arriving.Corners.Count == 0)
        {
            return null;
        }

        IReadOnlyList<Vec>[] all = [.. ways];
        all[0] = [.. leaving.Corners.Skip(1), .. all[0]];
        all[^1] = [.. all[^1], .. arriving.Corners.Reverse().SkipLast(1)];
        double FirstM(TangentPolygon arc, Vec end) => arc.Corners.Count > 0 ? (arc.Corners[0] - end).Length : radiusM;
        return Sketch.Of(
            task,
            all,
            FirstM(leaving, task.HelmEnd.At),
            FirstM(arriving, task.ArmEnd.At),
            radiusM);
    }

    // Way points between the stations: none, and what several graphs say.
    private static IEnumerable<IReadOnlyList<Vec>[]> Ways(RouteTask task, Box[] grown)
    {
        Vec[] stations = [task.HelmEnd.At, .. task.Clamps, task.ArmEnd.At];
        IReadOnlyList<Vec>[] straight = [.. stations.Skip(1).Select(_ => (IReadOnlyList<Vec>)[])];
        yield return straight;
        var seen = new HashSet<string> { Key(straight) };
        var avoided = new HashSet<Vec>();
        foreach (double away in new[] { 0.3, 1 })
        {
            var graph = new WayPointGraph(grown, away * task.MinBendRadiusM);
            foreach (double perM in new[] { 0.02, 0.3, 0.05 })
            {
                IReadOnlyList<Vec>?[] ways = [.. Enumerable.Range(0, stations.Length - 1).Select(i => graph.Between(
                    stations[i],
                    i == 0 ? task.HelmEnd.Direction : null,
                    stations[i + 1],
                    i == stations.Length - 2 ? task.ArmEnd.Direction : null,
                    perM,
                    avoided))];
                if (ways.All(way => way is not null))
                {
                    IReadOnlyList<Vec>[] found = [.. ways.Select(way => way!)];
                    if (seen.Add(Key(found)))
                    {
                        yield return found;
                    }

                    avoided.UnionWith(found.SelectMany(way => way));
                }
            }
        }
    }

    private static string Key(IReadOnlyList<Vec>[] ways) => string.Join('|', ways.Select(way => string.Join(';', way)));
}
