using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>PLACEHOLDER, to be replaced.</summary>
internal sealed class ProofTable(VerifyCableResponse proof, WeightTest before, WeightTest after, Figures figures)
{
    /// <summary>Writes the figures as they came.</summary>
    public void Draw(IAnsiConsole console) => console.WriteLine($"{before.Installation.DisplayName} {after.FittedGrade} {proof} {figures.ForceUnit}");
}
