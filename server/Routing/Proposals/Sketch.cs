using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Proposals;

/// <summary>A path of corners as numbers that may be moved freely: it always leaves the helm and arrives at the arm in the directions asked
/// for, and passes every clamp straight.</summary>
/// <remarks>Numbers: how far the first corner lies along the helm's direction and the last before the arm; three for every corner
/// between; for every clamp its direction, and how far the corners before and after it lie.</remarks>
internal sealed class Sketch
{
    private const double NearestM = 0.003;
    private readonly RouteTask task;
    private readonly int[] between;

    private Sketch(RouteTask task, int[] between) => (this.task, this.between) = (task, between);

    /// <summary>Makes a sketch and its numbers from way points.</summary>
    /// <param name="task">The task.</param>
    /// <param name="ways">Between each two stations (helm, clamps, arm), the way points; one list more than there are clamps.</param>
    /// <param name="firstM">How far the first corner lies from the helm, m.</param>
    /// <param name="lastM">How far the last corner lies from the arm, m.</param>
    /// <param name="aroundM">How far the corners beside a clamp lie from it, m.</param>
    public static (Sketch Sketch, double[] Numbers) Of(
        RouteTask task, IReadOnlyList<IReadOnlyList<Vec>> ways, double firstM, double lastM, double aroundM)
    {
        var numbers = new List<double> { firstM, lastM };
        for (int i = 0; i < task.Clamps.Count; i++)
        {
            Vec before = ways[i].Count > 0 ? ways[i][^1]
                : i > 0 ? task.Clamps[i - 1]
                : task.HelmEnd.At + (task.HelmEnd.Direction * firstM);
            Vec after = ways[i + 1].Count > 0 ? ways[i + 1][0]
                : i + 1 < task.Clamps.Count ? task.Clamps[i + 1]
                : task.ArmEnd.At - (task.ArmEnd.Direction * lastM);
            Vec direction = Points.Unit(after - before) ?? Vec.UnitX;
            numbers.AddRange([direction.X, direction.Y, direction.Z, aroundM, aroundM]);
        }

        foreach (Vec way in ways.SelectMany(way => way))
        {
            numbers.AddRange([way.X, way.Y, way.Z]);
        }

        return (new Sketch(task, [.. ways.Select(way => way.Count)]), [.. numbers]);
    }

    /// <summary>The corners, the ends first and last.</summary>
    public List<Vec> Corners(IReadOnlyList<double> numbers)
    {
        List<Vec> corners = [task.HelmEnd.At, task.HelmEnd.At + (task.HelmEnd.Direction * Away(numbers[0]))];
        int clampAt = 2;
        int wayAt = 2 + (5 * task.Clamps.Count);
        for (int i = 0; i < between.Length; i++)
        {
            for (int k = 0; k < between[i]; k++, wayAt += 3)
            {
                corners.Add(new Vec(numbers[wayAt], numbers[wayAt + 1], numbers[wayAt + 2]));
            }

            if (i < task.Clamps.Count)
            {
                Vec along = Points.Unit(new Vec(numbers[clampAt], numbers[clampAt + 1], numbers[clampAt + 2])) ?? Vec.UnitX;
                corners.Add(task.Clamps[i] - (along * Away(numbers[clampAt + 3])));
                corners.Add(task.Clamps[i] + (along * Away(numbers[clampAt + 4])));
                clampAt += 5;
            }
        }

        corners.Add(task.ArmEnd.At - (task.ArmEnd.Direction * Away(numbers[1])));
        corners.Add(task.ArmEnd.At);
        return corners;
    }

    private static double Away(double number) => Math.Max(NearestM, Math.Abs(number));
}
