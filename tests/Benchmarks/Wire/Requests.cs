using CableCatalog.Service.Installations;
using CableCatalog.V1;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>What is asked over the wire: an invented control of five bends that pulls one way and pushes the other, of which bands are
/// stated, as in the demo's "Plover".</summary>
internal static class Requests
{
    /// <summary>The best ten.</summary>
    public static ScoreGradesRequest BestTen() => new() { Installation = Control(), PageSize = 10 };

    /// <summary>The same installation as the service reads it.</summary>
    public static Catalog.Scoring.Installation Read() => InstallationReader.Read(Control(), CancellationToken.None);

    private static Installation Control() => new()
    {
        DisplayName = "A control of five bends",
        Helm = new Helm
        {
            GripRadiusM = 0.3556, CrankRadiusM = 0.0762, SweepRad = 1.2217, CrankAtRestRad = -0.6109, Efficiency = 0.95, FrictionN = 4.448,
        },
        RouteWobbleRadPerM = new Band { Low = 0.0286, Likely = 0.0515, High = 0.0802 },
        Route =
        {
            Straight(0.762), Bend(1.5708, 0.254), Straight(0.9144), Bend(1.0472, 0.3048), Straight(1.524), Bend(0.7854, 0.2794),
            Straight(0.4572), Bend(1.5708, 0.254), Straight(1.2192), Bend(0.9599, 0.3048), Straight(0.4064),
        },
        EndAllowanceM = 0.2032,
        Arm = new Arm { LoadRadiusM = 0.2032, HoleRadiusM = 0.0889, Efficiency = 0.92, FrictionN = 3.559 },
        InlineDevices =
        {
            new InlineDevice { DisplayName = "reducer", CableEnd = CableEnd.Arm, ForceRatio = 1, Efficiency = 0.85, DragN = 2.669 },
        },
        LoadCases =
        {
            new LoadCase { DisplayName = "raise", Direction = Direction.Pull, ForceN = 75.62 },
            new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 31.14 },
        },
        PresentCable = new PresentCable { Friction = new Band { Low = 0.17, Likely = 0.17, High = 0.17 } },
        EffortLimitN = 88.96,
    };

    private static RouteElement Straight(double lengthM) => new() { Straight = new Straight { LengthM = lengthM } };

    private static RouteElement Bend(double angleRad, double radiusM) =>
        new() { Bend = new Bend { AngleRad = angleRad, RadiusM = radiusM } };
}
