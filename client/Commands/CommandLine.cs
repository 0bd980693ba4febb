using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>The command line as a whole.</summary>
internal static class CommandLine
{
    // EPIPE, in POSIX.
    private const int BrokenPipe = 32;

    private static readonly string[] RootExamples =
    [
        "cablecatalog compare catalog-demo/plover-deflector.yaml",
        "cablecatalog explain catalog-demo/plover-deflector.yaml --grade marble",
        "cablecatalog diagnose my-tests.yaml",
    ];

    /// <summary>Runs one command line.</summary>
    /// <returns>An <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(string[] args, Terminal terminal)
    {
        ParseResult parsed = Make(terminal).Parse(args);
        var configuration = new InvocationConfiguration
        {
            EnableDefaultExceptionHandler = false,
            Output = terminal.Out,
            Error = terminal.Error,
        };
        if (parsed.CommandResult.Command.Name == ServeCommand.Name)
        {
            // It hears its own signals, and has its own time to end; whatever else is interrupted has the usual two seconds.
            configuration.ProcessTerminationTimeout = null;
        }

        if (parsed.Action is ParseErrorAction)
        {
            foreach (string mistake in Mistakes(parsed))
            {
                terminal.Error.WriteLine(mistake);
            }

            terminal.Error.WriteLine($"See: {HelpFor(parsed.CommandResult.Command)}");
            return (int)ExitCode.BadInput;
        }

        try
        {
            return await parsed.InvokeAsync(configuration);
        }
        catch (ClientFailure failure)
        {
            terminal.Error.WriteLine(failure.Message);
            return (int)failure.Code;
        }
        catch (IOException end) when (end.HResult == BrokenPipe && !OperatingSystem.IsWindows())
        {
            // Whoever reads has had enough, as head has.
            return (int)ExitCode.Success;
        }
        catch (IOException failure)
        {
            terminal.Error.WriteLine($"The result cannot be written: {failure.Message}");
            return (int)ExitCode.Refused;
        }
        catch (OperationCanceledException)
        {
            terminal.Error.WriteLine("Stopped.");
            return (int)ExitCode.Refused;
        }
        catch (Exception defect)
        {
            terminal.Error.WriteLine(
                $"This program failed where it should not ({defect.GetType().Name}: {defect.Message}). "
                    + "Please report it with the command you ran.");
            return (int)ExitCode.Defect;
        }
    }

    /// <summary>Every command there is.</summary>
    internal static RootCommand Make(Terminal terminal)
    {
        var options = new CommonOptions();
        var choice = new CatalogChoice(options, terminal);
        var root = new RootCommand(
            "Which push-pull cable grade makes a helm control easy on this boat, and what each pound saved costs.")
        {
            CompareCommand.Make(options, choice, terminal),
            ExplainCommand.Make(options, choice, terminal),
            RouteCommand.Make(options, choice, terminal),
            RigCommand.Make(options, choice, terminal),
            WeighCommand.Make(options, choice, terminal),
            QuoteCommand.Make(options, choice, terminal),
            BatchCommand.Make(options, choice, terminal),
            PricesCommand.Make(options, choice, terminal),
            PlanCommand.Make(options, choice, terminal),
            DiagnoseCommand.Make(options, choice, terminal),
            VerifyCommand.Make(options, choice, terminal),
            GradesCommand.Make(options, choice, terminal),
            HistoryCommand.Make(options, choice, terminal),
            WatchCommand.Make(options, choice, terminal),
            ServeCommand.Make(options, choice, terminal),
            KeysCommand.Make(choice, terminal),
            BackupCommand.Make(choice, terminal),
            RestoreCommand.Make(choice, terminal),
            CompletionCommand.Make(terminal),
        };
        root.Options.Add(options.Server);
        root.Options.Add(options.KeyFile);
        root.Options.Add(options.Trust);
        root.Options.Add(options.Catalog);
        root.Options.Add(options.CreateCatalog);
        root.Options.Add(options.Units);
        HelpOption help = root.Options.OfType<HelpOption>().Single();
        help.Action = new ExampledHelp((HelpAction)help.Action!, RootExamples);
        return root;
    }

    // Behind the first word that is not known, the rest of the line is not understood either.
    private static IEnumerable<string> Mistakes(ParseResult parsed)
    {
        if (parsed.UnmatchedTokens is not [string unknown, ..])
        {
            return parsed.Errors.Select(error => error.Message).Distinct();
        }

        Command command = parsed.CommandResult.Command;
        string[] known = unknown.StartsWith('-')
            ? [.. command.Parents.OfType<Command>()
                .SelectMany(c => c.Options.Where(o => o.Recursive))
                .Concat(command.Options)
                .Select(o => o.Name)]
            : [.. command.Subcommands.Select(c => c.Name)];
        return [known.Length > 0
            ? $"\"{Wording.Shown(unknown)}\" is not known here; {Wording.InsteadOf(unknown, known)}"
            : $"\"{Wording.Shown(unknown)}\" is more than {command.Name} takes; put a value with spaces in quotes"];
    }

    private static string HelpFor(Command command)
    {
        IEnumerable<string> path = command.Parents.OfType<Command>().Reverse().Append(command)
            .Where(c => c is not RootCommand).Select(c => c.Name);
        return string.Join(' ', ["cablecatalog", .. path, "--help"]);
    }
}
