using System.Threading.Channels;
using System.Threading.RateLimiting;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using CableCatalog.Service.WeightTests;
using Grpc.Core;

namespace CableCatalog.Service.Scores;

/// <summary>Scores installations over the catalogue's snapshot: reads, delegates, writes.</summary>
internal sealed class GradeScoringService(
    ICatalogStore store, FailureStatus failures, TimeProvider clock, Stopping stopping, CallRates? rates = null)
    : V1.GradeScoring.GradeScoringBase
{
    // Answers that are there are sent some at a time, about 100 kB: whatever is sent takes turns among the pool's threads, which are at work.
    private const int SentTogether = 16;
    private const int RowsSentTogether = 10 * SentTogether;

    private static readonly int MostRowsUnderWay = Environment.ProcessorCount * Paging.MostSize;

    /// <summary>The most answers of a stream that are being made or wait to be sent.</summary>
    internal static readonly int MostUnderWay = Environment.ProcessorCount + SentTogether;

    private static readonly WriteOptions NotYetSent = new(WriteFlags.BufferHint);

    /// <inheritdoc/>
    public override Task<V1.ScoreGradesResponse> ScoreGrades(V1.ScoreGradesRequest request, ServerCallContext context) =>
        Task.FromResult(Score(request, context.CancellationToken));

    /// <inheritdoc/>
    public override async Task ScoreInstallations(
        IAsyncStreamReader<V1.ScoreInstallationsRequest> requestStream,
        IServerStreamWriter<V1.ScoreInstallationsResponse> responseStream,
        ServerCallContext context)
    {
        using var call = new LongCall(context, store, clock, stopping.Token);
        await call.RunAsync(() => ScoreAllAsync(requestStream, responseStream, context, call));
    }

    // Scores on every processor, and gives its thread back after each installation, so that other callers' work comes between. An answer
    // that is not taken holds up the requests behind it, so that nothing piles up here: neither many answers nor large ones.
    private async Task ScoreAllAsync(
        IAsyncStreamReader<V1.ScoreInstallationsRequest> requestStream,
        IServerStreamWriter<V1.ScoreInstallationsResponse> responseStream,
        ServerCallContext context,
        LongCall call)
    {
        var processors = new ConcurrentExclusiveSchedulerPair(TaskScheduler.Default, Environment.ProcessorCount, maxItemsPerTask: 1);
        using var rows = new ConcurrencyLimiter(new ConcurrencyLimiterOptions { PermitLimit = MostRowsUnderWay, QueueLimit = Paging.MostSize });
        var underWay = Channel.CreateBounded<(Task<V1.ScoreInstallationsResponse> Answer, RateLimitLease Rows)>(
            new BoundedChannelOptions(MostUnderWay) { SingleReader = true, SingleWriter = true });
        using var over = CancellationTokenSource.CreateLinkedTokenSource(call.End);
        Task reading = ReadAllAsync();
        try
        {
            int unsent = 0;
            await foreach ((Task<V1.ScoreInstallationsResponse> response, RateLimitLease itsRows) in underWay.Reader.ReadAllAsync(call.End))
            {
                V1.ScoreInstallationsResponse answer = await response;
                call.RequireKey();
                unsent += 1 + (answer.Scores?.GradeScores.Count ?? 0);
                bool more = underWay.Reader.TryPeek(out (Task<V1.ScoreInstallationsResponse> Answer, RateLimitLease) next) && next.Answer.IsCompleted;
                bool isSent = !more || unsent >= RowsSentTogether;
                responseStream.WriteOptions = isSent ? null : NotYetSent;
                await responseStream.TellAsync(answer, context, call.End);
                unsent = isSent ? 0 : unsent;
                itsRows.Dispose();
            }
        }
        finally
        {
            // Nothing works on when the call is over.
            await over.CancelAsync();
            await reading;
            while (underWay.Reader.TryRead(out (Task<V1.ScoreInstallationsResponse> Answer, RateLimitLease) left))
            {
                await ((Task)left.Answer).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }

        // Whatever ends the reading ends the writing, once what was read before has been answered.
        async Task ReadAllAsync()
        {
            Exception? failure = null;
            try
            {
                for (long index = 0; await requestStream.NextAsync(context, over.Token); index++)
                {
                    await call.CountAsync(rates);
                    (long number, V1.ScoreInstallationsRequest one) = (index, requestStream.Current);
                    RateLimitLease itsRows = await rows.AcquireAsync(Paging.Size(Math.Max(0, one.Request?.PageSize ?? 0)), over.Token);
                    await underWay.Writer.WaitToWriteAsync(over.Token);
                    Task<V1.ScoreInstallationsResponse> answer = Task.Factory.StartNew(
                        () => Answer(number, one, context, over.Token),
                        CancellationToken.None,
                        TaskCreationOptions.DenyChildAttach,
                        processors.ConcurrentScheduler);
                    underWay.Writer.TryWrite((answer, itsRows));
                }
            }
            catch (Exception ended)
            {
                failure = ended;
            }

            underWay.Writer.Complete(failure);
        }
    }

    private V1.ScoreInstallationsResponse Answer(
        long index, V1.ScoreInstallationsRequest one, ServerCallContext context, CancellationToken cancellation)
    {
        var response = new V1.ScoreInstallationsResponse { Request = index, Label = one.Label };
        try
        {
            response.Scores = Score(ReadOne(one), cancellation);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            response.Refusal = failures.Of(failure, context);
        }

        return response;
    }

    private static V1.ScoreGradesRequest ReadOne(V1.ScoreInstallationsRequest one)
    {
        var violations = new Violations();
        violations.Text("label", one.Label, 0, 200);
        if (one.Request is null)
        {
            violations.Missing("request", "the installation to score");
        }
        else if (one.Request.PageToken.Length > 0)
        {
            violations.Add("request.page_token", "EXCLUSIVE", "must be empty: further pages are for the unary call");
        }

        violations.ThrowIfAny();
        return one.Request!;
    }

    private V1.ScoreGradesResponse Score(V1.ScoreGradesRequest request, CancellationToken cancellation)
    {
        int size = Paging.Size(request.PageSize);
        RankKey? after = request.PageToken.Length == 0 ? null : Paging.LastRank(Unpaged(request), request.PageToken);
        Ranking ranking = ReadRanking(request.Ranking);
        CatalogSnapshot catalog = store.Current;
        (Installation installation, CatalogGrade? present, IReadOnlyList<TestedSeries> series) = Read(request, catalog, cancellation);
        if (catalog.Count == 0)
        {
            throw CatalogRefusedException.NoGrades();
        }

        cancellation.ThrowIfCancellationRequested();
        Diagnosis? diagnosis = series.Count == 0
            ? null
            : Diagnosis.Of(Describing.Of(installation, present), series, cancellation: cancellation);
        InstallationScore score = InstallationScore.Of(
            installation, present, catalog, ranking, diagnosis, (size, after), cancellation);
        var response = new V1.ScoreGradesResponse
        {
            RouteFigures = ScoreWriter.WriteRoute(installation),
            PresentCable = ScoreWriter.Write(score.Baseline),
            GradeScores = { score.Scores.Select(ScoreWriter.Write) },
            TotalSize = catalog.Count,
            BestBuy = ScoreWriter.WriteBestBuy(score),
            Assumptions = { score.Assumptions.Select(AssumptionWriter.Write) },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        };
        if (score.HasMore)
        {
            response.NextPageToken = Paging.Token(Unpaged(request), RankKey.Of(score.Scores[^1], ranking));
        }

        return response;
    }

    private static V1.ScoreGradesRequest Unpaged(V1.ScoreGradesRequest request)
    {
        V1.ScoreGradesRequest unpaged = request.Clone();
        (unpaged.PageSize, unpaged.PageToken) = (0, "");
        return unpaged;
    }

    /// <inheritdoc/>
    public override Task<V1.ExplainGradeResponse> ExplainGrade(V1.ExplainGradeRequest request, ServerCallContext context)
    {
        string id = ResourceNames.Grades.Id("grade", request.Grade);
        Installation installation = InstallationReader.Read(request.Installation, context.CancellationToken);
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
        V1.ScoreGradesRequest request, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        const string Series = "test_series";
        var violations = new Violations();
        Installation? installation = violations.Try(() => InstallationReader.Read(request.Installation, cancellation));
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
