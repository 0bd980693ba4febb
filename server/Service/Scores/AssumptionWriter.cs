using CableCatalog.Catalog.Scoring;

namespace CableCatalog.Service.Scores;

/// <summary>Writes what was assumed.</summary>
internal static class AssumptionWriter
{
    /// <summary>Writes an assumption, its figure in the field of its unit.</summary>
    public static V1.Assumption Write(Assumption assumption)
    {
        var written = new V1.Assumption { Kind = Write(assumption.Kind) };
        if (assumption.Figure is not { } figure)
        {
            return written;
        }

        switch (assumption.Kind)
        {
            case AssumptionKind.GradeCoefficients:
                written.GradeCount = (int)figure;
                break;
            case AssumptionKind.RouteWobble:
                written.RouteWobbleRadPerM = figure;
                break;
            case AssumptionKind.Clearance or AssumptionKind.StopGap:
                written.LengthM = figure;
                break;
            case AssumptionKind.StopStiffness:
                written.StiffnessNPerM = figure;
                break;
            default:
                written.Efficiency = figure;
                break;
        }

        return written;
    }

    private static V1.AssumptionKind Write(AssumptionKind kind) => kind switch
    {
        AssumptionKind.GradeCoefficients => V1.AssumptionKind.GradeCoefficients,
        AssumptionKind.RouteWobble => V1.AssumptionKind.RouteWobble,
        AssumptionKind.HelmEfficiency => V1.AssumptionKind.HelmEfficiency,
        AssumptionKind.HelmFriction => V1.AssumptionKind.HelmFriction,
        AssumptionKind.ArmEfficiency => V1.AssumptionKind.ArmEfficiency,
        AssumptionKind.ArmFriction => V1.AssumptionKind.ArmFriction,
        AssumptionKind.CrankCentred => V1.AssumptionKind.CrankCentred,
        AssumptionKind.CrankPerpendicular => V1.AssumptionKind.CrankPerpendicular,
        AssumptionKind.PresentFriction => V1.AssumptionKind.PresentFriction,
        AssumptionKind.PresentDrags => V1.AssumptionKind.PresentDrags,
        AssumptionKind.ExcessIsTheCables => V1.AssumptionKind.ExcessIsTheCables,
        AssumptionKind.PresentCoreUnknown => V1.AssumptionKind.PresentCoreUnknown,
        AssumptionKind.TurnsOppose => V1.AssumptionKind.TurnsOppose,
        AssumptionKind.LikelyFaults => V1.AssumptionKind.LikelyFaults,
        AssumptionKind.ShapeUnknown => V1.AssumptionKind.ShapeUnknown,
        AssumptionKind.NoLabour => V1.AssumptionKind.NoLabour,
        AssumptionKind.Clearance => V1.AssumptionKind.Clearance,
        AssumptionKind.ArmCentred => V1.AssumptionKind.ArmCentred,
        AssumptionKind.ArmAsNow => V1.AssumptionKind.ArmAsNow,
        AssumptionKind.NoClearancePlay => V1.AssumptionKind.NoClearancePlay,
        AssumptionKind.NoFittingsPlay => V1.AssumptionKind.NoFittingsPlay,
        AssumptionKind.NoStretch => V1.AssumptionKind.NoStretch,
        AssumptionKind.StopStiffness => V1.AssumptionKind.StopStiffness,
        AssumptionKind.StopGap => V1.AssumptionKind.StopGap,
        AssumptionKind.EvenMoment => V1.AssumptionKind.EvenMoment,
        AssumptionKind.SameWobble => V1.AssumptionKind.SameWobble,
        AssumptionKind.SameFriction => V1.AssumptionKind.SameFriction,
        AssumptionKind.TriangularBands => V1.AssumptionKind.TriangularBands,
        AssumptionKind.ServicedSound => V1.AssumptionKind.ServicedSound,
        AssumptionKind.LoadsExact => V1.AssumptionKind.LoadsExact,
        AssumptionKind.MeasuredExact => V1.AssumptionKind.MeasuredExact,
        AssumptionKind.HiddenBendsStay => V1.AssumptionKind.HiddenBendsStay,
        _ => throw new InvalidOperationException($"no word in the contract for {kind}"),
    };
}
