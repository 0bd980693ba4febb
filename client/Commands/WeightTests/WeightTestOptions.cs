using System.CommandLine;
using System.CommandLine.Parsing;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;

namespace CableCatalog.Client.Commands;

/// <summary>What the commands on weight tests take.</summary>
internal static class WeightTestOptions
{
    private const string StepName = "--step";

    /// <summary>A test file.</summary>
    /// <param name="name">As it is called in the help.</param>
    /// <param name="what">Which test.</param>
    public static Argument<string> File(string name, string what) => new(name)
    {
        Description = $"YAML or JSON file with {what}; - reads standard input",
    };

    /// <summary>--step, in newtons.</summary>
    public static Option<double?> Step() => new(StepName)
    {
        Description = "Step between the weights at hand, with its unit (without it: 5 lbf)",
        HelpName = "FORCE",
        CustomParser = ReadStep,
    };

    /// <summary>Sends a step with a request where one was given.</summary>
    public static void Set(ParseResult parsed, Option<double?> step, Action<double> set)
    {
        if (parsed.GetValue(step) is { } stepN)
        {
            set(stepN);
        }
    }

    /// <summary>Where the step was written, for a request's field path.</summary>
    /// <returns>Null for another field.</returns>
    public static SourceMark? PlaceOfStep(ParseResult parsed, Option<double?> step, string field) =>
        field == "weight_step_n" && parsed.GetResult(step) is { Tokens: [var written, ..] }
            ? new SourceMark("command line", default, StepName, written.Value)
            : null;

    /// <summary>Reads a test file, and says beside the result what was left out of it.</summary>
    /// <exception cref="ClientFailure">It is not one, or the installation file that it names is not.</exception>
    public static WeightTestDocument Read(string file, Terminal terminal)
    {
        FileResult<WeightTestDocument> read = WeightTestFile.Read(file);
        foreach (FileProblem note in read.Value?.Notes ?? [])
        {
            terminal.Error.WriteLine(note);
        }

        return read.Value ?? throw ClientFailure.Of(read.Problems);
    }

    // The service allows more; nobody should be told to go up by more than is safe at all.
    private static double? ReadStep(ArgumentResult result)
    {
        double? stepN = Expecting.Quantity(StepName, QuantityKind.Force)(result);
        if (stepN > WeightTestWords.MostByHandN)
        {
            result.AddError(
                $"{StepName} {Wording.Shown(result.Tokens[0].Value)}: going up by more than 50 lbf (222 N) at a time is not safe"
                    + "; 5 lbf or less is usual.");
        }

        return stepN;
    }
}
