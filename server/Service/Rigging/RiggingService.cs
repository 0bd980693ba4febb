using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Rigging;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using Grpc.Core;

namespace CableCatalog.Service.Rigging;

/// <summary>Works out how a control should be rigged: reads the request, delegates, writes the answer.</summary>
internal sealed class RiggingService(ICatalogStore store) : V1.Rigging.RiggingBase
{
    /// <inheritdoc/>
    public override Task<V1.RigControlResponse> RigControl(V1.RigControlRequest request, ServerCallContext context)
    {
        CatalogSnapshot catalog = store.Current;
        (Installation installation, Baseline baseline, CatalogGrade? grade) = Read(request, catalog, context.CancellationToken);
        context.CancellationToken.ThrowIfCancellationRequested();
        V1.RigControlResponse response = RiggingWriter.Write(
            RiggedControl.Of(installation, baseline, grade, context.CancellationToken), installation);
        response.CatalogRevision = catalog.Revision;
        return Task.FromResult(response);
    }

    private static (Installation Installation, Baseline Baseline, CatalogGrade? Grade) Read(
        V1.RigControlRequest request, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        var violations = new Violations();
        Installation? installation = violations.Try(() => InstallationReader.Read(request.Installation, cancellation));
        CatalogGrade? present = installation is null ? null : PresentGrades.Of(violations, installation, catalog);
        CatalogGrade? grade = request.Grade.Length > 0 && ResourceNames.Grades.Id(violations, "grade", request.Grade) is { } id
            ? PresentGrades.Find(violations, "grade", id, catalog)
            : null;
        if (installation is { Chain.Helm.Sweep: null })
        {
            violations.Missing("installation.helm.sweep_rad", "the whole swing of the lever, from which all motion follows");
        }

        violations.ThrowIfAny();
        Baseline baseline = Baseline.Of(installation!, present);
        if (grade is null && baseline.Basis == BaselineBasis.Unexplained)
        {
            violations.Add(
                "installation.present_cable.measured_effort",
                "UNEXPLAINED",
                "must be an effort that some friction of the cable explains; find the part at fault first, or rig a grade");
        }

        violations.ThrowIfAny();
        return (installation!, baseline, grade);
    }
}
