using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>PLACEHOLDER, to be replaced.</summary>
internal static class WeightTestCsv
{
    /// <summary>Writes a diagnosis as it came.</summary>
    public static void Write(TextWriter writer, DiagnoseInstallationResponse diagnosis) => writer.WriteLine(diagnosis);

    /// <summary>Writes a proof as it came.</summary>
    public static void Write(TextWriter writer, VerifyCableResponse proof) => writer.WriteLine(proof);

    /// <summary>Writes a plan as it came.</summary>
    public static void Write(TextWriter writer, PlanWeightTestResponse plan) => writer.WriteLine(plan);
}
