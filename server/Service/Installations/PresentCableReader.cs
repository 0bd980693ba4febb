using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads what is known of the cable that is there now.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="assumptions">Where to list what may have to be assumed.</param>
internal sealed class PresentCableReader(Violations violations, List<Assumption> assumptions)
{
    /// <summary>The present cable; null where it is refused, with violations.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="loads">Its loads as they were read.</param>
    /// <param name="field">The field path of the present cable.</param>
    public PresentCable? Read(V1.Installation installation, LoadCase[] loads, string field)
    {
        V1.PresentCable? present = installation.PresentCable;
        const string What = "a grade, or its friction, or an effort measured at the grip";
        if (present is null)
        {
            violations.Missing(field, What);
            return null;
        }

        int before = violations.Count;
        string? gradeId = present.Grade.Length == 0 ? null : ResourceNames.Grades.Id(violations, $"{field}.grade", present.Grade);
        Band? friction = violations.Band($"{field}.friction", present.Friction, Limits.Friction);
        Band? sealDragN = violations.Band($"{field}.seal_drag_n", present.SealDragN, Limits.SealDragN);
        Band? runningDragNPerM = violations.Band(
            $"{field}.running_drag_n_per_m", present.RunningDragNPerM, Limits.RunningDragNPerM);
        Core? core = GradeReader.ReadCore(
            violations,
            field,
            present.HasCoreBendingStiffnessNM2,
            present.CoreBendingStiffnessNM2,
            present.HasDiametralClearanceM,
            present.DiametralClearanceM);
        double? axialN = violations.Number(
            $"{field}.axial_stiffness_n", present.HasAxialStiffnessN, present.AxialStiffnessN, Limits.AxialStiffnessN);
        MeasuredEffort? measured = present.MeasuredEffort is { } effort
            ? ReadMeasured(effort, installation.LoadCases, loads, $"{field}.measured_effort")
            : null;
        if (violations.Count > before)
        {
            return null;
        }

        if (gradeId is not null && ((friction ?? sealDragN ?? runningDragNPerM) is not null || core is not null))
        {
            violations.Add($"{field}.grade", "EXCLUSIVE", "must stand without coefficients of its own: the grade has them");
            return null;
        }

        if (gradeId is null && friction is null && present.MeasuredEffort is null)
        {
            violations.Missing(field, What);
            return null;
        }

        AssumeForPresent(
            friction is not null,
            gradeId is null && (sealDragN is null || runningDragNPerM is null),
            gradeId is null && core is null,
            measured is not null);
        return new PresentCable(gradeId, friction, sealDragN ?? default, runningDragNPerM ?? default, core, measured, axialN);
    }

    // All that could be assumed; which of it is depends on what is made of a measured effort: see InstallationScore.
    private void AssumeForPresent(bool frictionStated, bool dragsMissing, bool coreMissing, bool measured)
    {
        (AssumptionKind Kind, bool Assumed)[] all =
        [
            (AssumptionKind.ExcessIsTheCables, measured),
            (AssumptionKind.PresentFriction, frictionStated),
            (AssumptionKind.PresentDrags, dragsMissing),
            (AssumptionKind.PresentCoreUnknown, coreMissing),
        ];
        assumptions.AddRange(all.Where(a => a.Assumed).Select(a => new Assumption(a.Kind)));
    }

    private MeasuredEffort? ReadMeasured(
        V1.MeasuredEffort measured, IReadOnlyList<V1.LoadCase> written, LoadCase[] loads, string field)
    {
        int before = violations.Count;
        double effortN = violations.Number($"{field}.effort_n", measured.EffortN, Limits.EffortN);
        string? name = measured.LoadCase.Length == 0 && written.Count == 1 ? written[0].DisplayName : measured.LoadCase;
        if (written.All(load => load.DisplayName != name))
        {
            violations.Add(
                $"{field}.load_case", "UNKNOWN_LOAD_CASE", "must be the name of one of the loads: the one it was measured in");
        }

        // A load that was itself refused is not among those read.
        return violations.Count == before && loads.FirstOrDefault(load => load.Name == name) is { } found
            ? new MeasuredEffort(effortN, found)
            : null;
    }
}
