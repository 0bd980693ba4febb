using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using CableCatalog.Service.WeightTests;
using Grpc.Core;

namespace CableCatalog.Service.Scores;

/// <summary>Scores installations over the catalogue's snapshot: reads, delegates, writes.</summary>
internal sealed class GradeScoringService(ICatalogStore store) : V1.GradeScoring.GradeScoringBase
{
    /// <inheritdoc/>
    public override Task<V1.ScoreGradesResponse> ScoreGrades(V1.ScoreGradesRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        V1.ScoreGradesRequest identity = request.Clone();
        (identity.PageSize, identity.PageToken) = (0, "");
        RankKey? after = Paging.LastRank(identity, request.PageToken);
        Ranking ranking = ReadRanking(request.Ranking);
        CatalogSnapshot catalog = store.Current;
        (Installation installation, CatalogGrade? present, IReadOnlyList<TestedSeries> series) = Read(request, catalog);
        if (catalog.Count == 0)
        {
            throw CatalogRefusedException.NoGrades();
        }

        context.CancellationToken.ThrowIfCancellationRequested();
        Diagnosis? diagnosis = series.Count == 0
            ? null
            : Diagnosis.Of(Describing.Of(installation, present), series, cancellation: context.CancellationToken);
        InstallationScore score = InstallationScore.Of(
            installation, present, catalog, ranking, diagnosis, context.CancellationToken);
        GradeScore[] page = [.. score.Scores
            .SkipWhile(s => after is { } last && RankKey.Of(s, ranking) <= last)
            .Take(size + 1)];
        var response = new V1.ScoreGradesResponse
        {
            RouteFigures = ScoreWriter.WriteRoute(installation),
            PresentCable = ScoreWriter.Write(score.Baseline),
            GradeScores = { page.Take(size).Select(ScoreWriter.Write) },
            TotalSize = score.Scores.Count,
            BestBuy = ScoreWriter.Write(score.BestBuy, score),
            Assumptions = { score.Assumptions.Select(AssumptionWriter.Write) },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        };
        if (page.Length > size)
        {
            response.NextPageToken = Paging.Token(identity, RankKey.Of(page[size - 1], ranking));
        }

        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override Task<V1.ExplainGradeResponse> ExplainGrade(V1.ExplainGradeRequest request, ServerCallContext context)
    {
        string id = ResourceNames.Grades.Id("grade", request.Grade);
        Installation installation = InstallationReader.Read(request.Installation);
        CatalogSnapshot catalog = store.Current;
        var violations = new Violations();
        CatalogGrade? present = PresentGrades.Of(violations, installation, catalog);
        violations.ThrowIfAny();
        CatalogGrade grade = catalog.Find(id) ?? throw CatalogRefusedException.NotFound(id);

        Baseline baseline = Baseline.Of(installation, present);
        GradeScore score = GradeScore.Of(installation, baseline, grade);
        CableCoefficients likely = grade.Grade.Bands.At(
            Mechanics.Bands.BandEnd.Likely, installation.WobbleRadPerM.Likely);
        return Task.FromResult(new V1.ExplainGradeResponse
        {
            CaseExplanations =
            {
                installation.Loads.Select(load => new V1.CaseExplanation
                {
                    LoadCase = load.Name,
                    Direction = ScoreWriter.Write(load.Direction),
                    PresentCable = baseline.Likely is { } now
                        ? ScoreWriter.Write(EffortBreakdown.Of(installation.Chain, now, load))
                        : null,
                    Grade = ScoreWriter.Write(EffortBreakdown.Of(installation.Chain, likely, load)),
                }),
            },
            PresentCable = ScoreWriter.Write(baseline),
            GradeScore = ScoreWriter.Write(score),
            Assumptions =
            {
                InstallationScore.AssumptionsFor(installation, baseline, present is null ? [grade] : [grade, present])
                    .Select(AssumptionWriter.Write),
            },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        });
    }

    private static (Installation Installation, CatalogGrade? Present, IReadOnlyList<TestedSeries> Series) Read(
        V1.ScoreGradesRequest request, CatalogSnapshot catalog)
    {
        const string Series = "test_series";
        var violations = new Violations();
        Installation? installation = violations.Try(() => InstallationReader.Read(request.Installation));
        CatalogGrade? present = installation is null ? null : PresentGrades.Of(violations, installation, catalog);
        IReadOnlyList<TestedSeries> series = new SeriesReader(violations, installation).ReadAll(request.TestSeries, Series, 0);
        violations.ThrowIfAny();
        SeriesReader.CheckTogether(violations, Describing.Of(installation!, present), series, Series);
        violations.ThrowIfAny();
        return (installation!, present, series);
    }

    private static Ranking ReadRanking(V1.Ranking ranking) => ranking switch
    {
        V1.Ranking.Unspecified or V1.Ranking.CostPerForceSaved => Ranking.CostPerForceSaved,
        V1.Ranking.Effort => Ranking.Effort,
        V1.Ranking.Price => Ranking.Price,
        _ => throw InvalidRequestException.For("ranking", "UNKNOWN", "must be one of the rankings of this version"),
    };
}
