using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>PLACEHOLDER, to be replaced.</summary>
internal sealed class DiagnosisTable(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
{
    /// <summary>Writes the figures as they came.</summary>
    public void Draw(IAnsiConsole console) => console.WriteLine($"{test.Installation.DisplayName} {diagnosis} {figures.ForceUnit}");
}
