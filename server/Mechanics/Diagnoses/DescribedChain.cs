using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>A chain as it is described, before anything is measured.</summary>
/// <param name="Chain">The chain.</param>
/// <param name="Loads">The loads it moves, at least one.</param>
/// <param name="WobbleRadPerM">Wobble of the route, rad/m.</param>
/// <param name="Cable">What a sound cable of its kind would be.</param>
/// <param name="MinBendRadiusM">The least radius its cable may be bent to, m; null where not known.</param>
/// <param name="RatedPullN">The most its cable may carry in pull, N; null where not known.</param>
/// <param name="RatedPushN">The most its cable may carry in push, N; null where not known.</param>
public sealed record DescribedChain(
    Chain Chain,
    IReadOnlyList<LoadCase> Loads,
    Band WobbleRadPerM,
    CableBands Cable,
    double? MinBendRadiusM,
    double? RatedPullN,
    double? RatedPushN)
{
    /// <summary>The bends under the least radius, counted from the helm from 0.</summary>
    public IEnumerable<(int Index, Bend Bend)> TightBends => MinBendRadiusM is { } leastM
        ? Chain.Route.Bends.Index().Where(bend => bend.Item.RadiusM < leastM)
        : [];

    /// <summary>All the angle of the route that rubs, wobble at its likely value, rad.</summary>
    public double AngleRad => Math.Max(0.1, Chain.Route.TotalBendRad + (WobbleRadPerM.Likely * Chain.Route.LengthM));

    /// <summary>The most the cable may carry in a direction, N; null where not known.</summary>
    public double? RatedN(Direction direction) => direction == Direction.Pull ? RatedPullN : RatedPushN;
}
