using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Routing.Space;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Routes;

/// <summary>What a study is asked of.</summary>
/// <param name="Installation">The installation.</param>
/// <param name="Present">The grade of its present cable; null where not known.</param>
/// <param name="Grades">The grades to study; one or more.</param>
/// <param name="Currency">The catalogue's currency.</param>
internal sealed record RouteStudyRequest(
    Installation Installation, CatalogGrade? Present, IReadOnlyCollection<CatalogGrade> Grades, string Currency);

/// <summary>Reads requests for a study of routes.</summary>
internal static class RouteStudyReader
{
    private const string Root = "installation";

    /// <summary>Reads a request.</summary>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported, by field path.</exception>
    /// <exception cref="CatalogRefusedException">The catalogue has no grades.</exception>
    public static RouteStudyRequest Read(
        V1.StudyRoutesRequest request, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        var violations = new Violations();
        Installation? installation = violations.Try(() => InstallationReader.Read(request.Installation, Root, cancellation));
        CatalogGrade? present = installation is null ? null : PresentGrades.Of(violations, installation, catalog);
        CatalogGrade[] grades = PresentGrades.All(violations, "grades", request.Grades, catalog);
        if (installation is not null && catalog.Count > 0)
        {
            CheckCurrency(violations, request.Installation, catalog.Grades.First().Grade.Price.Currency);
            if (request.Propose)
            {
                RequireEnds(violations, installation);
            }
        }

        violations.ThrowIfAny();
        return catalog.Count == 0
            ? throw CatalogRefusedException.NoGrades()
            : new RouteStudyRequest(installation!, present, grades, catalog.Grades.First().Grade.Price.Currency);
    }

    private static void CheckCurrency(Violations violations, V1.Installation installation, string currency)
    {
        Require($"{Root}.labour.reroute", installation.Labour?.Reroute);
        Require($"{Root}.labour.replace", installation.Labour?.Replace);
        foreach ((int index, V1.OtherRoute other) in installation.OtherRoutes.Index())
        {
            Require($"{Root}.other_routes[{index}].labour", other.Labour);
        }

        void Require(string field, Google.Type.Money? money)
        {
            if (money is not null && money.CurrencyCode != currency)
            {
                violations.Add(
                    $"{field}.currency_code",
                    "OTHER_CURRENCY",
                    $"must be {currency}, the currency of this catalogue's prices; found {money.CurrencyCode}");
            }
        }
    }

    private static void RequireEnds(Violations violations, Installation installation)
    {
        Require("helm_end", installation.Routes.Demands.HelmEnd, "leaves the helm");
        Require("arm_end", installation.Routes.Demands.ArmEnd, "arrives at the driven arm");

        void Require(string name, RouteEnd? end, string what)
        {
            if (end is null)
            {
                violations.Missing(
                    $"{Root}.routing_space.{name}",
                    $"where a proposed route {what}, for the shape of the present route is not known in space; or say of every "
                        + "bend which way it turns");
            }
        }
    }
}
