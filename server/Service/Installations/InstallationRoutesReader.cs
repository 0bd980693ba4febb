using CableCatalog.Catalog.Routes;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics;
using CableCatalog.Routing.Space;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads what an installation says of other routes and of what a new one must avoid and pass.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="root">The field path of the installation.</param>
/// <param name="cancellation">Gives up between two routes.</param>
internal sealed class InstallationRoutesReader(Violations violations, string root, CancellationToken cancellation)
{
    private const int MostOthers = 20;
    private const int MostObstacles = 30;
    private const int MostClamps = 10;

    // Where a route ends is known to a rounding: on a side of a box is not inside it.
    private const double OnSideM = 1e-4;

    /// <summary>What it says; of no use where there are violations.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="present">Its present route; null where that was refused.</param>
    public InstallationRoutes Read(V1.Installation installation, KnownRoute? present)
    {
        string field = $"{root}.other_routes";
        OtherRoute[] others = violations.Each(
            field, installation.OtherRoutes, 0, MostOthers, $"at most {MostOthers} other routes", ReadOther);
        violations.DistinctNames(field, installation.OtherRoutes.Select(other => other.DisplayName), "other routes");
        return new InstallationRoutes(
            present,
            others,
            ReadDemands(installation.RoutingSpace, present?.InSpace),
            ReadMoney($"{root}.labour.reroute", installation.Labour?.Reroute),
            ReadMoney($"{root}.labour.replace", installation.Labour?.Replace));
    }

    private OtherRoute? ReadOther(V1.OtherRoute other, string field)
    {
        string name = violations.Text($"{field}.display_name", other.DisplayName, 1, 100);
        Money? labour = ReadMoney($"{field}.labour", other.Labour);
        if (other.Path is null)
        {
            violations.Missing($"{field}.path", "the way that the cable would run");
            return null;
        }

        return RouteReader.Read(violations, WrittenRoute.Of(other.Path, $"{field}.path"), cancellation) is { } way
            ? new OtherRoute(name, way, labour)
            : null;
    }

    private RouteDemands ReadDemands(V1.RoutingSpace? space, RouteInSpace? present)
    {
        string field = $"{root}.routing_space";
        if (space is null)
        {
            return RouteDemands.None with { HelmEnd = present?.HelmEnd, ArmEnd = present?.ArmEnd };
        }

        RouteEnd? helmEnd = violations.End($"{field}.helm_end", space.HelmEnd) ?? present?.HelmEnd;
        RouteEnd? armEnd = violations.End($"{field}.arm_end", space.ArmEnd) ?? present?.ArmEnd;
        int before = violations.Count;
        Obstacle[] obstacles = violations.Each(
            $"{field}.obstacles",
            space.Obstacles,
            0,
            MostObstacles,
            $"at most {MostObstacles} obstacles",
            ReadObstacle);
        Clamp[] clamps = violations.Each(
            $"{field}.clamps", space.Clamps, 0, MostClamps, $"at most {MostClamps} clamps", ReadClamp);
        violations.DistinctNames($"{field}.obstacles", space.Obstacles.Select(o => o.DisplayName), "other obstacles");
        violations.DistinctNames($"{field}.clamps", space.Clamps.Select(c => c.DisplayName), "other clamps");
        double? clearanceM = violations.Number(
            $"{field}.clearance_m", space.HasClearanceM, space.ClearanceM, Limits.RouteClearanceM);
        var demands = new RouteDemands(helmEnd, armEnd, obstacles, clamps, clearanceM);
        if (violations.Count == before)
        {
            CheckPlaces(demands, field);
        }

        return demands;
    }

    private Obstacle? ReadObstacle(V1.Obstacle obstacle, string field)
    {
        int before = violations.Count;
        string name = violations.Text($"{field}.display_name", obstacle.DisplayName, 1, 100);
        Vec? one = violations.Point($"{field}.corner", obstacle.Corner);
        Vec? opposite = violations.Point($"{field}.opposite_corner", obstacle.OppositeCorner);
        if (one is { } a && opposite is { } b)
        {
            string[] flat =
            [
                .. new[] { ("x", a.X == b.X), ("y", a.Y == b.Y), ("z", a.Z == b.Z) }
                    .Where(axis => axis.Item2).Select(axis => axis.Item1),
            ];
            if (flat.Length > 0)
            {
                violations.Add(
                    $"{field}.opposite_corner",
                    "FLAT_BOX",
                    $"must have another x, y and z than the corner opposite to it: {string.Join(" and ", flat)} "
                        + $"{(flat.Length == 1 ? "is" : "are")} the same, and a box without thickness keeps nothing away");
            }
        }

        return violations.Count > before
            ? null
            : new Obstacle(
                name,
                Silk.NET.Maths.Vector3D.Min(one!.Value, opposite!.Value),
                Silk.NET.Maths.Vector3D.Max(one.Value, opposite.Value));
    }

    private Clamp? ReadClamp(V1.Clamp clamp, string field)
    {
        string name = violations.Text($"{field}.display_name", clamp.DisplayName, 1, 100);
        return violations.Point($"{field}.at", clamp.At) is { } at ? new Clamp(name, at) : null;
    }

    private void CheckPlaces(RouteDemands demands, string field)
    {
        foreach ((int i, Obstacle obstacle) in demands.Obstacles.Index())
        {
            RequireOutside(obstacle, i, demands.HelmEnd?.At, "the helm end of the cable");
            RequireOutside(obstacle, i, demands.ArmEnd?.At, "the arm end of the cable");
            foreach (Clamp clamp in demands.Clamps)
            {
                RequireOutside(obstacle, i, clamp.At, $"the clamp \"{clamp.Name}\"");
            }
        }

        void RequireOutside(Obstacle obstacle, int index, Vec? place, string what)
        {
            if (place is { } at && obstacle.DepthM(at) > OnSideM)
            {
                violations.Add(
                    $"{field}.obstacles[{index}]",
                    "END_INSIDE",
                    $"must not hold {what}: that lies {LengthWords.Of(obstacle.DepthM(at))} inside, at {LengthWords.Of(at)}; "
                        + "correct the box or the place");
            }
        }
    }

    private Money? ReadMoney(string field, Google.Type.Money? money) =>
        money is null ? null : MoneyMapping.Read(violations, field, money);
}
