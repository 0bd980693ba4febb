using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>PLACEHOLDER, to be replaced.</summary>
internal static class DiagnosisReport
{
    /// <summary>The figures as they came.</summary>
    public static string Html(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
        $"{test.Installation.DisplayName} {diagnosis} {figures.ForceUnit}";
}
