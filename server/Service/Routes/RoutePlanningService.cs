using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Scores;
using Grpc.Core;

namespace CableCatalog.Service.Routes;

/// <summary>Measures, studies and proposes routes: reads the request, delegates, writes the answer.</summary>
internal sealed class RoutePlanningService(ICatalogStore store) : V1.RoutePlanning.RoutePlanningBase
{
    /// <inheritdoc/>
    public override Task<V1.MeasureRouteResponse> MeasureRoute(V1.MeasureRouteRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        V1.MeasureRouteRequest identity = request.Clone();
        (identity.PageSize, identity.PageToken) = (0, "");
        string[]? after = Paging.LastKey(identity, request.PageToken, 1);
        (KnownRoute way, double neededLengthM) = Read(request, context.CancellationToken);

        CatalogSnapshot catalog = store.Current;
        CatalogGrade[] page = [.. catalog.Grades
            .SkipWhile(grade => after is [var lastId] && string.CompareOrdinal(grade.Id, lastId) <= 0)
            .Take(size + 1)];
        return Task.FromResult(new V1.MeasureRouteResponse
        {
            Shape = RouteShapeWriter.Write(way, neededLengthM, null),
            Grades = { page.Take(size).Select(grade => Write(grade.Grade, way, neededLengthM)) },
            NextPageToken = page.Length > size ? Paging.Token(identity, page[size - 1].Id) : "",
            TotalSize = catalog.Count,
            Assumptions = { RouteStudy.AssumptionsFor([way]).Select(AssumptionWriter.Write) },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.StudyRoutesResponse> StudyRoutes(V1.StudyRoutesRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        V1.StudyRoutesRequest identity = request.Clone();
        (identity.PageSize, identity.PageToken) = (0, "");
        RankKey? after = Paging.LastRank(identity, request.PageToken);
        CatalogSnapshot catalog = store.Current;
        RouteStudyRequest asked = RouteStudyReader.Read(request, catalog, context.CancellationToken);

        context.CancellationToken.ThrowIfCancellationRequested();
        Installation installation = asked.Installation;
        Baseline baseline = Baseline.Of(installation, asked.Present);
        RouteProposals proposals = request.Propose
            ? RouteProposals.Of(installation, baseline, asked.Grades, asked.Currency, context.CancellationToken)
            : RouteProposals.None;
        RouteToStudy[] routes = [.. RouteStudy.RoutesOf(installation, asked.Currency), .. proposals.Routes];
        RouteStudy study = RouteStudy.Of(installation, baseline, asked.Grades, routes, context.CancellationToken);
        GradeOnRoutes[] page = [.. study.Grades
            .SkipWhile(grade => after is { } last && grade.Key <= last)
            .Take(size + 1)];
        return Task.FromResult(new V1.StudyRoutesResponse
        {
            Routes = { study.Routes.Select(route => RouteStudyWriter.Write(route, installation, baseline)) },
            Floor = RouteStudyWriter.WriteFloor(study),
            Grades = { page.Take(size).Select(grade => RouteStudyWriter.Write(grade, study)) },
            NextPageToken = page.Length > size ? Paging.Token(identity, page[size - 1].Key) : "",
            TotalSize = study.Grades.Count,
            Money = RouteStudyWriter.Write(study.Money),
            NoRoutes = { proposals.NotFound.Select(none => RouteStudyWriter.Write(none, installation)) },
            Assumptions =
            {
                study.AssumptionsFor(installation)
                    .Concat(request.Propose ? RouteProposals.AssumptionsFor(installation) : [])
                    .Select(AssumptionWriter.Write),
            },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        });
    }

    private static (KnownRoute Way, double NeededLengthM) Read(
        V1.MeasureRouteRequest request, CancellationToken cancellation)
    {
        var violations = new Violations();
        KnownRoute? way = null;
        if (request.Path is null)
        {
            violations.Missing("path", "the route");
        }
        else
        {
            way = RouteReader.Read(violations, WrittenRoute.Of(request.Path, "path"), cancellation);
        }

        double allowanceM = violations.Number("end_allowance_m", request.EndAllowanceM, Limits.EndAllowanceM);
        violations.ThrowIfAny();
        return (way!, way!.Route.LengthM + allowanceM);
    }

    private static V1.GradeOnRoute Write(Grade grade, KnownRoute way, double neededLengthM)
    {
        var written = new V1.GradeOnRoute
        {
            Grade = ResourceNames.Grades.Of(grade.Id),
            DisplayName = grade.DisplayName,
            TightBends =
            {
                FitCheck.TightBends(way.Route, grade.Ratings.MinBendRadiusM)
                    .Select(bend => ScoreWriter.WriteTightBend(bend.BendNumber, bend.RadiusM, bend.MinBendRadiusM)),
            },
        };
        if (grade.Ratings.LengthsMade.OrderLengthM(neededLengthM) is { } orderM)
        {
            written.OrderLengthM = orderM;
            written.Price = MoneyMapping.Write(grade.Price.For(orderM));
        }

        return written;
    }
}
