using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Scores;
using Grpc.Core;

namespace CableCatalog.Service.WeightTests;

/// <summary>Plans weight tests, reads them and proves new cables by them: reads the request, delegates, writes the answer.</summary>
internal sealed class WeightTestingService(ICatalogStore store) : V1.WeightTesting.WeightTestingBase
{
    // 5 lbf.
    private const double UsualStepN = 5 * 4.4482216152605;

    /// <inheritdoc/>
    public override Task<V1.PlanWeightTestResponse> PlanWeightTest(
        V1.PlanWeightTestRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        CatalogSnapshot catalog = store.Current;
        Installation? installation = violations.Try(() => InstallationReader.Read(request.Installation, context.CancellationToken));
        CatalogGrade? present = installation is null ? null : PresentGrades.Of(violations, installation, catalog);
        double stepN = ReadStep(violations, request.HasWeightStepN, request.WeightStepN);
        violations.ThrowIfAny();

        // A plan goes by what the parts are described to be, and not by an effort that was measured once.
        Installation described = installation! with { Present = installation.Present with { Measured = null } };
        DescribedChain chain = Describing.Of(described, present);
        return Task.FromResult(new V1.PlanWeightTestResponse
        {
            PlannedSeries =
            {
                chain.Loads.Select(load =>
                {
                    context.CancellationToken.ThrowIfCancellationRequested();
                    return PlanWriter.Write(WeightPlan.Of(chain, load, stepN), chain);
                }),
            },
            WeightStepN = stepN,
            Assumptions =
            {
                InstallationScore.AssumptionsOfTests(described, present, present is null ? [] : [present])
                    .Select(AssumptionWriter.Write),
            },
            Cautions = Cautions.All(),
            CatalogRevision = catalog.Revision,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.DiagnoseInstallationResponse> DiagnoseInstallation(
        V1.DiagnoseInstallationRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        CatalogSnapshot catalog = store.Current;
        WeightTest? test = WeightTestReader.Read(violations, request.Test, "test", catalog, context.CancellationToken);
        double stepN = ReadStep(violations, request.HasWeightStepN, request.WeightStepN);
        violations.ThrowIfAny();

        context.CancellationToken.ThrowIfCancellationRequested();
        Diagnosis diagnosis = Diagnosis.Of(test!.Described, test.Series, cancellation: context.CancellationToken);
        context.CancellationToken.ThrowIfCancellationRequested();
        V1.DiagnoseInstallationResponse response = DiagnosisWriter.Write(diagnosis, test, request.Test.Series, stepN);
        response.Assumptions.AddRange(AssumptionsOf(test).Select(AssumptionWriter.Write));
        response.Cautions = Cautions.All();
        response.CatalogRevision = catalog.Revision;
        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override Task<V1.VerifyCableResponse> VerifyCable(V1.VerifyCableRequest request, ServerCallContext context)
    {
        CatalogSnapshot catalog = store.Current;
        TestPair tests = ProofReader.Read(request, catalog, context.CancellationToken);
        (WeightTest before, WeightTest after) = (tests.Before, tests.After);

        context.CancellationToken.ThrowIfCancellationRequested();
        Diagnosis was = Diagnosis.Of(before.Described, before.Series, cancellation: context.CancellationToken);
        context.CancellationToken.ThrowIfCancellationRequested();
        Diagnosis now = Diagnosis.Of(after.Described, after.Series, cancellation: context.CancellationToken);
        Proof proof = Proof.Of(before.Installation, tests.Grade, before.Fitted, was, after.Series, tests.Cost);
        V1.VerifyCableResponse response = ProofWriter.Write(proof, tests, CableBehaviour.Of(now), request);
        response.Assumptions.AddRange(AssumptionsOf(before, tests.Grade).Select(AssumptionWriter.Write));
        response.Cautions = Cautions.All();
        response.CatalogRevision = catalog.Revision;
        return Task.FromResult(response);
    }

    private static IReadOnlyList<Assumption> AssumptionsOf(WeightTest test, params IReadOnlyList<CatalogGrade> others) =>
        InstallationScore.AssumptionsOfTests(
            test.Installation, test.Fitted, test.Fitted is { } fitted ? [fitted, .. others] : others);

    private static double ReadStep(Violations violations, bool isSet, double stepN) =>
        violations.Number("weight_step_n", isSet, stepN, Limits.WeightStepN) ?? UsualStepN;
}
