using System.Text.Json.Nodes;
using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A test file with the planned weights, in which a person fills in what held and what moved.</summary>
internal static class TestFileSkeleton
{
    private const string StandardInput = "-";

    /// <summary>Writes it, straight to the writer: a line of a file must not be wrapped.</summary>
    /// <param name="writer">Where.</param>
    /// <param name="plan">What is to be hung.</param>
    /// <param name="installationFile">The installation's file as the person named it; "-" for none.</param>
    /// <param name="figures">The units.</param>
    public static void Write(TextWriter writer, PlanWeightTestResponse plan, string installationFile, Figures figures)
    {
        (string force, string weight) = figures.Units == UnitSystem.Us ? ("0.5 lbf", "0.25 lbf") : ("2 N", "1 N");
        writer.Write("# Leave out held or moved where it was not seen. Where you know how far a\n");
        writer.Write("# reading may be off, add it to its series, for example:\n");
        writer.Write($"#    force uncertainty: {force}\n");
        writer.Write($"#    weight uncertainty: {weight}\n");
        writer.Write("# The installation's file, as seen from the folder of this one:\n");
        writer.Write($"{Line("installation", installationFile == StandardInput ? "my-boat.yaml" : installationFile)}\n");
        writer.Write("series:\n");
        foreach (PlannedSeries series in plan.PlannedSeries)
        {
            writer.Write("  - connected: whole chain\n");
            writer.Write($"    {Line("load", series.LoadCase)}\n");
            writer.Write($"    direction: {(series.Direction == Direction.Push ? "push" : "pull")}\n");
            writer.Write("    readings:\n");
            foreach (PlannedStep reading in series.Steps)
            {
                writer.Write($"      - {{ added: {Added(reading.AddedN, figures)}, held: , moved: }}\n");
            }
        }
    }

    // A name may need quotes.
    private static string Line(string key, string value)
    {
        using var line = new StringWriter();
        YamlText.Write(line, new JsonObject { [key] = value });
        return line.ToString().TrimEnd('\n');
    }

    private static string Added(double addedN, Figures figures) =>
        addedN > 0 ? WeightTestWords.Weight(addedN, figures) : $"0 {figures.ForceUnit}";
}
