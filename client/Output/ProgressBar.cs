using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A bar that shows how far long work has come, on a person's screen only and beside the result.</summary>
internal static class ProgressBar
{
    /// <summary>Does work that says after each of its steps that it is done.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="what">What is done, in a word or two.</param>
    /// <param name="steps">How many steps there are.</param>
    /// <param name="work">The work, given what to call after each step.</param>
    public static async Task ShowAsync(Terminal terminal, string what, int steps, Func<Action, Task> work)
    {
        if (!terminal.IsInteractive || steps == 0)
        {
            await work(() => { });
            return;
        }

        IAnsiConsole console = AnsiConsole.Create(
            new AnsiConsoleSettings { Out = new AnsiConsoleOutput(terminal.Error), Interactive = InteractionSupport.Yes });
        await console.Progress()
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn(), new RemainingTimeColumn())
            .StartAsync(progress =>
            {
                ProgressTask task = progress.AddTask(what, maxValue: steps);
                return work(() => task.Increment(1));
            });
    }
}
