using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Routing.Proposals;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.Routes;

/// <summary>Writes studies of routes.</summary>
internal static class RouteStudyWriter
{
    /// <summary>Writes a route of a study.</summary>
    public static V1.StudiedRoute Write(StudiedRoute studied, Installation installation, Baseline baseline)
    {
        RouteToStudy route = studied.Route;
        Installation along = installation.Along(route.Way.Route);
        var written = new V1.StudiedRoute
        {
            Source = route.Source switch
            {
                RouteSource.Present => V1.RouteSource.Present,
                RouteSource.Other => V1.RouteSource.Other,
                _ => V1.RouteSource.Proposed,
            },
            DisplayName = route.Name,
            Shape = RouteShapeWriter.Write(route.Way, along.NeededLengthM, Effort.CableTravelM(along.Chain)),
            Labour = MoneyMapping.Write(route.Labour),
            PresentCable = route.Source == RouteSource.Present
                ? ScoreWriter.Write(baseline)
                : ScoreWriter.Write(studied.Present, baseline),
        };
        if (studied.Present.ShortByM is { } shortByM)
        {
            written.PresentCableShortByM = shortByM;
        }

        if (route.Proposal is { } proposal)
        {
            written.MinBendRadiusM = proposal.MinBendRadiusM;
            written.Corners.AddRange(proposal.Corners.Select(RouteShapeWriter.Write));
        }

        return written;
    }

    /// <summary>Writes what no route can beat; null where that is not known.</summary>
    public static V1.RouteFloor? WriteFloor(RouteStudy study) => study.Floor is not { } floor
        ? null
        : new V1.RouteFloor
        {
            LeastBend = RouteShapeWriter.Write(floor),
            PresentCableEffortN = study.PresentLeastEffortN is { } leastN ? ScoreWriter.Write(leastN) : null,
        };

    /// <summary>Writes a grade on every route.</summary>
    public static V1.GradeOnRoutes Write(GradeOnRoutes grade, RouteStudy study)
    {
        var written = new V1.GradeOnRoutes
        {
            Grade = ResourceNames.Grades.Of(grade.Grade.Id),
            DisplayName = grade.Grade.Grade.DisplayName,
            Scores = { grade.Scores.Zip(study.Routes, Write) },
            FloorEffortN = grade.LeastEffortN is { } leastN ? ScoreWriter.Write(leastN) : null,
        };
        if (grade.BestRoute is { } best)
        {
            written.BestRoute = best;
        }

        return written;
    }

    /// <summary>Writes what is the better money.</summary>
    public static V1.RouteMoney Write(RouteMoney money)
    {
        var written = new V1.RouteMoney
        {
            Options = { money.Options.Select(Write) },
            Verdict = ScoreWriter.Write(money.Verdict),
        };
        if (money.Best is { } best)
        {
            written.Best = best;
        }

        return written;
    }

    /// <summary>Writes why there is no proposal.</summary>
    public static V1.NoRoute Write(NoRoute none, Installation installation)
    {
        RouteDemands demands = installation.Routes.Demands;
        return new V1.NoRoute
        {
            MinBendRadiusM = none.MinBendRadiusM,
            Relaxations =
            {
                none.Relaxations.Select(relaxed => relaxed switch
                {
                    Relaxation.WithoutBox box => new V1.Relaxation { Obstacle = demands.Obstacles[box.Index].Name },
                    Relaxation.WithoutClamp clamp => new V1.Relaxation { Clamp = demands.Clamps[clamp.Index].Name },
                    Relaxation.Clearance clearance => new V1.Relaxation { ClearanceM = clearance.ClearanceM },
                    Relaxation.Radius radius => new V1.Relaxation { MinBendRadiusM = radius.MinBendRadiusM },
                    _ => throw new InvalidOperationException($"no word in the contract for {relaxed}"),
                }),
            },
        };
    }

    private static V1.GradeScore Write(GradeScore score, StudiedRoute route)
    {
        V1.GradeScore written = ScoreWriter.Write(score);
        written.CostPerNewtonSaved = score is { Price: { } price, Saving: { } saving }
            && saving.CostPerNewton(price + route.Route.Labour) is { } cost
                ? MoneyMapping.Write(cost)
                : null;
        return written;
    }

    private static V1.RouteMoneyOption Write(RouteMoneyOption option) => new()
    {
        Kind = option.Kind switch
        {
            RouteMoneyKind.Reroute => V1.RouteMoneyKind.Reroute,
            RouteMoneyKind.Upgrade => V1.RouteMoneyKind.Upgrade,
            _ => V1.RouteMoneyKind.Both,
        },
        Route = option.Route,
        Grade = option.GradeId is { } id ? ResourceNames.Grades.Of(id) : "",
        Cost = MoneyMapping.Write(option.Cost),
        EffortN = ScoreWriter.Write(option.EffortN),
        SavedN = ScoreWriter.Write(option.Saving),
        CostPerNewtonSaved = option.Saving.CostPerNewton(option.Cost) is { } cost ? MoneyMapping.Write(cost) : null,
        LimitVerdict = ScoreWriter.Write(option.Limit),
        SavingVerdict = ScoreWriter.Write(option.Saving.Verdict),
    };
}
