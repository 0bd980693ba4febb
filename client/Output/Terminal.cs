using Microsoft.Win32.SafeHandles;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Where a command writes, and what that can show.</summary>
/// <param name="Out">For results.</param>
/// <param name="Error">For everything else.</param>
/// <param name="IsInteractive">Whether results go to a person's screen and not into a pipe or a file.</param>
/// <param name="Columns">Width of that screen.</param>
/// <param name="Variable">Reads an environment variable.</param>
internal sealed record Terminal(
    TextWriter Out, TextWriter Error, bool IsInteractive, int Columns, Func<string, string?> Variable)
{
    // Tables are made for these widths; a pipe gets the wider whatever the screen is.
    private const int MostColumns = 100;
    private const int LeastColumns = 79;

    /// <summary>The terminal of this process.</summary>
    public static Terminal OfThisProcess() => new(
        Console.IsOutputRedirected && !OperatingSystem.IsWindows() ? PipeOrConsole() : Console.Out,
        Console.Error,
        !Console.IsOutputRedirected,
        Console.IsOutputRedirected ? MostColumns : Console.WindowWidth,
        Environment.GetEnvironmentVariable);

    // The console passes over it when nobody reads its pipe any more, and a watch would go on for ever.
    private static TextWriter PipeOrConsole()
    {
        const int StandardOutput = 1;
        var pipe = new FileStream(new SafeFileHandle(StandardOutput, ownsHandle: false), FileAccess.Write, bufferSize: 0);
        return pipe.CanSeek ? Console.Out : new StreamWriter(pipe, Console.OutputEncoding) { AutoFlush = true };
    }

    /// <summary>Draws on <see cref="Out"/>: bold and dim only on a screen, and never with NO_COLOR; no blanks at line ends.
    /// </summary>
    public void Draw(Action<IAnsiConsole> draw)
    {
        bool styled = IsInteractive && string.IsNullOrEmpty(Variable("NO_COLOR")) && Variable("TERM") != "dumb";
        using var drawn = new StringWriter();
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = styled ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = styled ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(drawn),
        });
        console.Profile.Width = IsInteractive ? Math.Clamp(Columns, LeastColumns, MostColumns) : MostColumns;
        console.Profile.Capabilities.Unicode = Out.Encoding.WebName.StartsWith("utf", StringComparison.OrdinalIgnoreCase);
        draw(console);
        foreach (string line in drawn.ToString().TrimEnd().Split('\n'))
        {
            Out.WriteLine(line.TrimEnd());
        }
    }
}
