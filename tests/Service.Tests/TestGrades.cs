using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Service.Tests;

/// <summary>Invented grades and an invented installation. No real product; every coefficient assumed.</summary>
internal static class TestGrades
{
    /// <summary>Nine grades g1 to g9, each slicker and dearer than the one before.</summary>
    public static IEnumerable<Grade> All() => Enumerable.Range(1, 9).Select(n => New($"g{n}", 0.24 - (0.02 * n), 10 * n));

    public static Grade New(string id, double friction, long basePrice) => new()
    {
        Name = $"grades/{id}",
        DisplayName = $"Grade {id}",
        Core = "stranded wire",
        Liner = "plastic tube",
        CoreConstruction = CoreConstruction.Stranded,
        CoefficientBasis = CoefficientBasis.Assumed,
        Friction = new Band { Low = friction * 0.8, Likely = friction, High = friction * 1.25 },
        MinBendRadiusM = 0.2,
        SealDragN = new Band { Low = 1, Likely = 2, High = 3 },
        RunningDragNPerM = new Band { Low = 0.5, Likely = 0.8, High = 1 },
        CoreBendingStiffnessNM2 = 0.12,
        DiametralClearanceM = 0.0006,
        RatedPullN = 1200,
        LengthsMade = new LengthsMade { ShortestLengthM = 1, LongestLengthM = 12, LengthStepM = 0.5 },
        Price = new Price
        {
            Base = Usd(basePrice),
            PerMetre = Usd(4, 500_000_000),
            Fittings = Usd(6),
            PriceDate = new Date { Year = 2026, Month = 10, Day = 1 },
        },
    };

    /// <summary>Route, grade data, helm and arm of the helm_effort check values.</summary>
    public static Installation Installation() => new()
    {
        DisplayName = "Test launch",
        Helm = new Helm { GripRadiusM = 0.3, CrankRadiusM = 0.06, Efficiency = 0.95, FrictionN = 4 },
        Route =
        {
            Straight(1.2), Bend(90, 0.25), Straight(1), Bend(90, 0.2), Straight(1.5), Bend(45, 0.3), Straight(0.6),
        },
        RouteWobbleRadPerM = Exactly(0.05),
        Arm = new Arm { LoadRadiusM = 0.22, HoleRadiusM = 0.14, Efficiency = 0.92, FrictionN = 5 },
        InlineDevices =
        {
            new InlineDevice
            {
                DisplayName = "gear reducer",
                CableEnd = CableEnd.Helm,
                ForceRatio = 1,
                Efficiency = 0.8,
                DragN = 3,
            },
        },
        LoadCases = { new LoadCase { DisplayName = "raise", Direction = Direction.Pull, ForceN = 150 } },
        PresentCable = new PresentCable { Friction = Exactly(0.17) },
        EffortLimitN = 110,
    };

    public static Band Exactly(double value) => new() { Low = value, Likely = value, High = value };

    public static Money Usd(long units, int nanos = 0) => new() { CurrencyCode = "USD", Units = units, Nanos = nanos };

    public static RouteElement Straight(double lengthM) => new() { Straight = new Straight { LengthM = lengthM } };

    public static RouteElement Bend(double angleDeg, double radiusM) =>
        new() { Bend = new Bend { AngleRad = angleDeg * Math.PI / 180, RadiusM = radiusM } };

    /// <summary>A change of the base price of every grade.</summary>
    public static BatchUpdateGradesRequest AllAt(long baseUnits)
    {
        var dearer = new BatchUpdateGradesRequest();
        foreach (Grade grade in All())
        {
            grade.Price.Base.Units = baseUnits;
            dearer.Requests.Add(new UpdateGradeRequest { Grade = grade });
        }

        return dearer;
    }
}
