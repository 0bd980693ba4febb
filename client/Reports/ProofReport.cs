using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>PLACEHOLDER, to be replaced.</summary>
internal static class ProofReport
{
    /// <summary>The figures as they came.</summary>
    public static string Html(VerifyCableResponse proof, WeightTest before, WeightTest after, Figures figures) =>
        $"{before.Installation.DisplayName} {after.FittedGrade} {proof} {figures.ForceUnit}";
}
