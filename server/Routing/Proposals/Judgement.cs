using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Proposals;

/// <summary>What a path of corners is worth to a task: a route that keeps everything, or how far it is from one.</summary>
/// <param name="task">The task.</param>
internal sealed class Judgement(RouteTask task)
{
    // Wide bends are shorter and drag less, but cut into what stands inside a corner.
    private static readonly double[] Caps = [double.PositiveInfinity, 3, 1];

    // Corners that turn too little to be bends, and straights too short to be any, are left out, which shifts a route by so much.
    private const double NearEnoughM = 0.001;

    // A radius is the least to the last bit or it is not: leave it a hair.
    private readonly double _leastM = task.MinBendRadiusM * (1 + 1e-7);
    private readonly Box[] _grown = [.. task.Boxes.Select(box => box.Grown(task.ClearanceM))];

    /// <summary>The best route with these corners; null where none keeps everything.</summary>
    public ProposedRoute? Best { get; private set; }

    /// <summary>Judges a path. What does not keep everything is worse than what does, and the worse the farther off.</summary>
    /// <returns>The effort, N, which is infinite where the cable locks; what does not keep everything is beyond any finite effort.</returns>
    public double Of(IReadOnlyList<Vec> corners)
    {
        const double Beyond = 1e9;
        double? least = null;
        double farOff = double.PositiveInfinity;
        if (CornerPath.Fit([.. corners.Select(at => new Corner(at, null))]) is not Fitted widest)
        {
            return Beyond * 1e3;
        }

        double widestM = widest.RadiiM.Max() ?? 0;
        for (int i = 0; i < Caps.Length && (i == 0 || widestM > Caps[i] * _leastM); i++)
        {
            if ((i == 0 ? widest : widest.NoWiderThan(Caps[i] * _leastM)) is not Fitted fitted)
            {
                return Beyond * 1e3;
            }

            double off = Short(fitted) + OffClamps(fitted.Route) + _grown.Sum(box => box.InsideM(fitted.Route));
            if (off > 0)
            {
                farOff = Math.Min(farOff, off);
                continue;
            }

            double effortN = task.EffortN(fitted.Route.Route);
            least = Math.Min(least ?? effortN, effortN);
            Keep(corners, fitted, effortN);
        }

        return least ?? (double.IsFinite(farOff) ? Beyond * (1 + farOff)
            : Beyond * 1e2);
    }

    private void Keep(IReadOnlyList<Vec> corners, Fitted fitted, double effortN)
    {
        if (Best is null || effortN < Best.EffortN)
        {
            Corner[] kept =
            [
                .. corners.Zip(fitted.RadiiM).Index()
                    .Where(c => c.Item.Second is not null || c.Index == 0 || c.Index == corners.Count - 1)
                    .Select(c => new Corner(c.Item.First, c.Item.Second)),
            ];
            Best = new ProposedRoute(fitted.Route, kept, effortN);
        }
    }

    // How far the straights of a route are from the clamps, m: a bend may not take up the place of one.
    private double OffClamps(RouteInSpace route)
    {
        double offM = 0;
        foreach (Vec clamp in task.Clamps)
        {
            double nearestM = double.PositiveInfinity;
            for (int i = 0; i < route.Route.Elements.Count; i++)
            {
                if (route.Route.Elements[i] is Mechanics.Routes.Straight)
                {
                    nearestM = Math.Min(nearestM, Points.DistanceM(clamp, route.Frames[i].At, route.Frames[i + 1].At));
                }
            }

            offM += nearestM > NearEnoughM ? Math.Min(nearestM, 10) : 0;
        }

        return offM;
    }

    private double Short(Fitted fitted) => fitted.RadiiM
        .Where(radius => radius is { } r && r < _leastM * (1 - 1e-9))
        .Sum(radius => (_leastM - radius!.Value) / _leastM);
}
