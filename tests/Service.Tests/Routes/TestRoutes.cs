using CableCatalog.V1;

namespace CableCatalog.Service.Tests.Routes;

/// <summary>Invented routes in space.</summary>
internal static class TestRoutes
{
    /// <summary>Ahead 1.5 m, to port 1.5 m, down 1 m: two square corners, the first of 0.3 m and the second of 0.25 m.</summary>
    public static SpatialRoute Corners() => new()
    {
        Corners = new CornerPath
        {
            Corners = { At(0, 0, 0), At(1.5, 0, 0, 0.3), At(1.5, 1.5, 0, 0.25), At(1.5, 1.5, -1) },
        },
    };

    /// <summary>The same as straights and bends.</summary>
    public static IEnumerable<RouteElement> Elements() =>
    [
        TestGrades.Straight(1.5 - 0.3),
        Bend(90, 0.3, 0),
        TestGrades.Straight(1.5 - 0.3 - 0.25),

        // Seen from the helm the frame has turned left with the cable: down is still 270 degrees.
        Bend(90, 0.25, 270),
        TestGrades.Straight(1 - 0.25),
    ];

    /// <summary>Straight across from end to end of the same: the two corners cut.</summary>
    public static SpatialRoute Short() => new()
    {
        Corners = new CornerPath
        {
            Corners = { At(0, 0, 0), At(0.4, 0, 0), At(1.5, 1.5, -0.6), At(1.5, 1.5, -1) },
        },
    };

    /// <summary>Points every 0.1 m along a quarter circle of 0.5 m to port with 0.8 m of straight before and after, each 2 mm off one
    /// way or the other.</summary>
    public static SpatialRoute Survey()
    {
        const double Arc = 0.5 * Math.PI / 2;
        int last = (int)((1.6 + Arc) / 0.1);
        return new SpatialRoute
        {
            Survey = new SurveyedPath
            {
                MeasuringErrorM = 0.002,
                Points = { Enumerable.Range(0, last + 1).Select(i => Off(Along(0.1 * i), i)) },
            },
        };

        static (double X, double Y) Along(double s) => s < 0.8 ? (s, 0)
            : s < 0.8 + Arc ? (0.8 + (0.5 * Math.Sin((s - 0.8) / 0.5)), 0.5 * (1 - Math.Cos((s - 0.8) / 0.5)))
            : (1.3, 0.5 + s - 0.8 - Arc);

        static Point Off((double X, double Y) at, int i) =>
            Point(at.X + (i % 3 == 0 ? 0.002 : -0.002), at.Y + (i % 5 < 2 ? 0.002 : -0.002), i % 7 < 3 ? 0.002 : -0.002);
    }

    public static Corner At(double x, double y, double z, double? radiusM = null)
    {
        var corner = new Corner { At = Point(x, y, z) };
        if (radiusM is { } radius)
        {
            corner.RadiusM = radius;
        }

        return corner;
    }

    public static Point Point(double x, double y, double z) => new() { XM = x, YM = y, ZM = z };

    public static RouteElement Bend(double angleDeg, double radiusM, double turnDeg) =>
        TestGrades.Bend(angleDeg, radiusM).With(element => element.Bend.TurnRad = turnDeg * Math.PI / 180);

    /// <summary>The test installation along the corners, with a shorter way offered.</summary>
    public static Installation Installation()
    {
        Installation installation = TestGrades.Installation();
        installation.Route.Clear();
        installation.SpatialRoute = Corners();
        installation.OtherRoutes.Add(new OtherRoute
        {
            DisplayName = "across the bilge", Path = new CablePath { SpatialRoute = Short() },
        });
        installation.Labour = new Labour { Reroute = TestGrades.Usd(120), Replace = TestGrades.Usd(45, 500_000_000) };
        return installation;
    }
}
