using CableCatalog.Catalog.Routes;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Space;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.Routes;

/// <summary>Writes shapes of routes.</summary>
internal static class RouteShapeWriter
{
    // Straight lines between points so far apart are within 0.13 % of a bend's radius of the cable.
    private const double DrawnStepRad = 0.1;

    /// <summary>Writes a shape.</summary>
    /// <param name="way">The route.</param>
    /// <param name="neededLengthM">Route and end allowance, m.</param>
    /// <param name="cableTravelM">Travel that the helm gives the cable, m; null where no helm is known.</param>
    public static V1.RouteShape Write(KnownRoute way, double neededLengthM, double? cableTravelM)
    {
        // A route in space says which way its bends turn; one that is written without may not.
        CableRoute route = way.InSpace?.Route ?? way.Route;
        var written = new V1.RouteShape
        {
            Figures = ScoreWriter.WriteRoute(route, neededLengthM, cableTravelM),
            Elements = { route.Elements.Select(Write) },
            Bends = { Bends(route) },
        };
        if (way.InSpace is { } shape)
        {
            written.HelmEnd = Write(shape.HelmEnd);
            written.ArmEnd = Write(shape.ArmEnd);
            written.Drawn.AddRange(shape.Trace(DrawnStepRad).Select(Write));
            written.LeastBend = RouteFloor.Between(shape.HelmEnd, shape.ArmEnd) is { } floor
                ? Write(floor with { ThroughRad = way.Survey?.FloorRad })
                : null;
        }

        if (way.Survey is { } survey)
        {
            written.Smoothing = new V1.Smoothing
            {
                MeasuringErrorM = survey.ErrorM,
                ResidualM = survey.RmsResidualM,
                UnsmoothedBendRad = survey.UnsmoothedBendRad,
                TotalBendErrorRad = survey.TotalBendErrorRad,
                FitsWithinError = survey.FitsWithinError,
            };
        }

        return written;
    }

    /// <summary>Writes the least possible bend.</summary>
    public static V1.LeastBend Write(RouteFloor floor)
    {
        var written = new V1.LeastBend { AngleRad = floor.EndsRad, DistanceM = floor.DistanceM };
        if (floor.ThroughRad is { } throughRad)
        {
            written.ThroughPointsRad = throughRad;
        }

        return written;
    }

    /// <summary>Writes a corner.</summary>
    public static V1.Corner Write(Corner corner)
    {
        var written = new V1.Corner { At = Write(corner.At) };
        if (corner.RadiusM is { } radiusM)
        {
            written.RadiusM = radiusM;
        }

        return written;
    }

    private static IEnumerable<V1.BendFigures> Bends(CableRoute route)
    {
        double begunM = 0;
        foreach (RouteElement element in route.Elements)
        {
            if (element is Bend bend)
            {
                yield return new V1.BendFigures { AngleRad = bend.AngleRad, RadiusM = bend.RadiusM, BeginsAtM = begunM };
            }

            begunM += element.LengthM;
        }
    }

    private static V1.RouteElement Write(RouteElement element)
    {
        if (element is not Bend bend)
        {
            return new V1.RouteElement { Straight = new V1.Straight { LengthM = element.LengthM } };
        }

        var written = new V1.Bend { AngleRad = bend.AngleRad, RadiusM = bend.RadiusM };
        if (bend.TurnRad is { } turnRad)
        {
            written.TurnRad = turnRad;
        }

        return new V1.RouteElement { Bend = written };
    }

    private static V1.CableEndPlace Write(RouteEnd end) => new()
    {
        At = Write(end.At),
        Direction = new V1.Vector { X = end.Direction.X, Y = end.Direction.Y, Z = end.Direction.Z },
    };

    private static V1.Point Write(Vec at) => new() { XM = at.X, YM = at.Y, ZM = at.Z };
}
