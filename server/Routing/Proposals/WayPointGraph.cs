using System.Diagnostics.CodeAnalysis;
using CableCatalog.Routing.Space;
using QuikGraph;
using QuikGraph.Algorithms.Observers;
using QuikGraph.Algorithms.ShortestPath;

namespace CableCatalog.Routing.Proposals;

/// <summary>Ways around boxes as straight lines from way point to way point.</summary>
/// <remarks>The way points are corners of the boxes and middles of their edges, a little away from them. A step of the graph goes from
/// one line to the next and costs the turn between them and a little for length; the A* algorithm (P. E. Hart, N. J. Nilsson and
/// B. Raphael, IEEE Transactions on Systems Science and Cybernetics 4, 1968, from memory; QuikGraph) finds the cheapest way on this graph
/// exactly. Only boxes that stand in the way found so far are gone around.</remarks>
internal sealed class WayPointGraph(IReadOnlyList<Box> grown, double awayM)
{
    private const int MostRounds = 6;
    private const int MostBoxesAround = 6;

    /// <summary>The way points of a cheap way between two places, the places themselves left out; null where none was found.</summary>
    /// <param name="from">The first place.</param>
    /// <param name="fromDirection">Which way the cable leaves it; null where it is free.</param>
    /// <param name="to">The last place.</param>
    /// <param name="toDirection">Which way it arrives; null where it is free.</param>
    /// <param name="perM">Cost of a metre, in radians of turn.</param>
    /// <param name="avoided">Way points that cost a right angle more.</param>
    public IReadOnlyList<Vec>? Between(
        Vec from, Vec? fromDirection, Vec to, Vec? toDirection, double perM, IReadOnlySet<Vec> avoided)
    {
        var around = new List<int>();
        IReadOnlyList<Vec> way = [];
        for (int round = 0; round < MostRounds; round++)
        {
            Vec[] whole = [from, .. way, to];
            int[] hit =
            [
                .. Enumerable.Range(0, grown.Count).Where(i => !around.Contains(i)
                    && whole.Zip(whole.Skip(1)).Any(leg => grown[i].InsideM(leg.First, leg.Second) > 0)),
            ];
            if (hit.Length == 0)
            {
                return way;
            }

            around.AddRange(hit.Take(MostBoxesAround - around.Count));
            Box[] boxes = [.. around.Select(i => grown[i])];
            if (Cheapest(from, fromDirection, to, toDirection, boxes, perM, avoided) is not { } found)
            {
                return null;
            }

            way = found;
        }

        return null;
    }

    // The library reads its distances by reflection: a program compiled ahead of time must keep what it looks for.
    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicProperties, typeof(Dictionary<(int From, int To), double>))]
    private List<Vec>? Cheapest(
        Vec from,
        Vec? fromDirection,
        Vec to,
        Vec? toDirection,
        Box[] boxes,
        double perM,
        IReadOnlySet<Vec> avoided)
    {
        Vec[] places =
        [
            from,
            to,
            .. boxes.SelectMany(box => box.Grown(awayM).WayPoints()).Where(p => !boxes.Any(box => box.Holds(p))).Distinct(),
        ];
        var free = new bool[places.Length, places.Length];
        for (int i = 0; i < places.Length; i++)
        {
            for (int j = 0; j < places.Length; j++)
            {
                free[i, j] = i != j && i != 1 && j != 0
                    && (places[j] - places[i]).Length > Points.CoincidentM
                    && boxes.All(box => box.InsideM(places[i], places[j]) == 0);
            }
        }

        // A vertex is a line from one place to another. Before the first line there is the start, after the last the arrival.
        var start = (From: -1, To: 0);
        var arrival = (From: 1, To: -1);
        (int From, int To)[] lines =
        [
            .. from i in Enumerable.Range(0, places.Length)
               from j in Enumerable.Range(0, places.Length)
               where free[i, j]
               select (i, j),
        ];
        ILookup<int, (int From, int To)> leaving = lines.Append(arrival).ToLookup(line => line.From);
        var graph = new AdjacencyGraph<(int From, int To), SEdge<(int From, int To)>>();
        graph.AddVertexRange([start, .. lines, arrival]);
        var search = new AStarShortestPathAlgorithm<(int From, int To), SEdge<(int From, int To)>>(graph, Cost, CostAtLeast);

        // Few lines are come to: the steps from a line are added where it is.
        search.ExamineVertex += line =>
        {
            if (graph.IsOutEdgesEmpty(line))
            {
                graph.AddEdgeRange(leaving[line.To].Select(next => new SEdge<(int From, int To)>(line, next)));
            }
        };
        search.FinishVertex += line =>
        {
            if (line == arrival)
            {
                search.Abort();
            }
        };
        var paths = new VertexPredecessorRecorderObserver<(int From, int To), SEdge<(int From, int To)>>();
        using (paths.Attach(search))
        {
            search.Compute(start);
        }

        return paths.TryGetPath(arrival, out IEnumerable<SEdge<(int From, int To)>>? path)
            ? [.. path.Select(step => step.Target.To).SkipLast(2).Select(place => places[place])]
            : null;

        Vec? DirectionOf((int From, int To) line) =>
            line == start ? fromDirection : line == arrival ? toDirection : places[line.To] - places[line.From];

        double Cost(SEdge<(int From, int To)> step)
        {
            double turnRad = DirectionOf(step.Source) is { } before && DirectionOf(step.Target) is { } after
                ? Points.AngleRad(before, after)
                : 0;
            return step.Target == arrival ? turnRad
                : turnRad + (perM * (places[step.Target.To] - places[step.Target.From]).Length)
                    + (avoided.Contains(places[step.Target.To]) ? Math.PI / 2 : 0);
        }

        // What is left of the turn takes the line to the direction of the arrival, and by way of that to the place of it: the straight to
        // there is a sum of the lines to come.
        double CostAtLeast((int From, int To) line)
        {
            if (line == arrival)
            {
                return 0;
            }

            Vec left = to - places[line.To];
            return DirectionOf(line) is not { } direction ? perM * left.Length : (perM * left.Length) + Math.Max(
                line.To == 1 ? 0 : Points.AngleRad(direction, left),
                toDirection is { } arriving ? Points.AngleRad(direction, arriving) : 0);
        }
    }
}
