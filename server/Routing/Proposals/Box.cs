using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Proposals;

/// <summary>A box along the axes.</summary>
/// <param name="Least">Its corner of least x, y and z, m.</param>
/// <param name="Most">Its corner of most x, y and z, m.</param>
public readonly record struct Box(Vec Least, Vec Most)
{
    /// <summary>The box with so much room about it, m.</summary>
    public Box Grown(double byM) => new(Least - new Vec(byM, byM, byM), Most + new Vec(byM, byM, byM));

    /// <summary>Whether a point lies inside it, not on its sides.</summary>
    public bool Holds(Vec point) =>
        point.X > Least.X && point.X < Most.X && point.Y > Least.Y && point.Y < Most.Y && point.Z > Least.Z && point.Z < Most.Z;

    /// <summary>How much of a straight from one point to another lies inside it, m: exact, by slabs (T. L. Kay and J. T. Kajiya,
    /// Ray tracing complex scenes, SIGGRAPH 1986; from memory).</summary>
    public double InsideM(Vec from, Vec to)
    {
        (double enter, double leave) = (0, 1);
        Vec along = to - from;
        return Slab(from.X, along.X, Least.X, Most.X) && Slab(from.Y, along.Y, Least.Y, Most.Y)
            && Slab(from.Z, along.Z, Least.Z, Most.Z)
            ? Math.Max(0, leave - enter) * along.Length
            : 0;

        bool Slab(double start, double step, double least, double most)
        {
            if (step == 0)
            {
                return start > least && start < most;
            }

            double first = (least - start) / step;
            double second = (most - start) / step;
            enter = Math.Max(enter, Math.Min(first, second));
            leave = Math.Min(leave, Math.Max(first, second));
            return enter < leave;
        }
    }

    /// <summary>How much of a route lies inside it, m. Never 0 where any of it does: an arc is taken as chords, and the box as grown by how
    /// far an arc bulges beyond its chord.</summary>
    public double InsideM(RouteInSpace route)
    {
        const double StepRad = 0.1;
        double insideM = 0;
        for (int i = 0; i < route.Route.Elements.Count; i++)
        {
            Vec from = route.Frames[i].At;
            if (route.Route.Elements[i] is not Mechanics.Routes.Bend bend)
            {
                insideM += InsideM(from, route.Frames[i + 1].At);
                continue;
            }

            int steps = Math.Max(1, (int)Math.Ceiling(bend.AngleRad / StepRad));
            double half = bend.AngleRad / steps / 2;
            Box grown = Grown(bend.RadiusM * (1 - Math.Cos(half)));
            if (grown.IsBeyond(from, Math.Min(bend.LengthM, 2 * bend.RadiusM)))
            {
                continue;
            }

            Vec inward = route.Frames[i].Towards(bend.TurnRad!.Value);
            for (int k = 1; k <= steps; k++)
            {
                Vec to = k == steps
                    ? route.Frames[i + 1].At
                    : route.Frames[i].PointAround(inward, bend.RadiusM, bend.AngleRad * k / steps);
                insideM += grown.InsideM(from, to);
                from = to;
            }
        }

        return insideM;
    }

    // Whether nothing within a reach of a point is in it.
    private bool IsBeyond(Vec from, double reachM) =>
        from.X + reachM < Least.X || from.X - reachM > Most.X
        || from.Y + reachM < Least.Y || from.Y - reachM > Most.Y
        || from.Z + reachM < Least.Z || from.Z - reachM > Most.Z;

    /// <summary>Its corners and the middles of its edges.</summary>
    internal IEnumerable<Vec> WayPoints()
    {
        Vec middle = (Least + Most) * 0.5;
        double[] xs = [Least.X, middle.X, Most.X];
        double[] ys = [Least.Y, middle.Y, Most.Y];
        double[] zs = [Least.Z, middle.Z, Most.Z];
        for (int i = 0; i < 27; i++)
        {
            (int x, int y, int z) = (i % 3, i / 3 % 3, i / 9);
            if ((x == 1 ? 1 : 0) + (y == 1 ? 1 : 0) + (z == 1 ? 1 : 0) <= 1)
            {
                yield return new Vec(xs[x], ys[y], zs[z]);
            }
        }
    }
}
