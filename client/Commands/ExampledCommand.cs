using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace CableCatalog.Client.Commands;

/// <summary>A command whose help ends with examples.</summary>
internal sealed class ExampledCommand(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>What a person would type.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;
}

/// <summary>The usual help, with the command's examples after it.</summary>
internal sealed class ExampledHelp(HelpAction usual, IReadOnlyList<string> rootExamples) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        usual.MaxWidth = 100;
        int code = usual.Invoke(parseResult);
        IReadOnlyList<string> examples = parseResult.CommandResult.Command switch
        {
            ExampledCommand command => command.Examples,
            RootCommand => rootExamples,
            _ => [],
        };
        if (examples.Count > 0)
        {
            TextWriter output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Examples:");
            foreach (string example in examples)
            {
                output.WriteLine($"  {example}");
            }

            output.WriteLine();
        }

        return code;
    }
}
