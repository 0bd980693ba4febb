using System.CommandLine;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>completion SHELL: a script that completes this program's commands in a shell.</summary>
internal static class CompletionCommand
{
    // Each asks the program itself, through the directive that System.CommandLine answers.
    private const string Bash = """
        _cablecatalog() {
          local word=${COMP_WORDS[COMP_CWORD]} IFS=$'\n'
          local words=$(cablecatalog "[suggest:${COMP_POINT}]" "${COMP_LINE}" 2>/dev/null)
          COMPREPLY=($(compgen -W "$words" -- "$word") $(compgen -f -- "$word"))
        }
        complete -o filenames -F _cablecatalog cablecatalog
        """;

    private const string Zsh = """
        _cablecatalog() {
          local -a found
          found=("${(@f)$(cablecatalog "[suggest:${CURSOR}]" "${BUFFER}" 2>/dev/null)}")
          compadd -a found
          _files
        }
        compdef _cablecatalog cablecatalog
        """;

    private const string Fish = """
        complete -c cablecatalog -a '(set -l line (commandline -cp); cablecatalog "[suggest:"(string length -- $line)"]" "$line" 2>/dev/null)'
        """;

    private const string PowerShell = """
        Register-ArgumentCompleter -Native -CommandName cablecatalog -ScriptBlock {
          param($word, $line, $cursor)
          cablecatalog "[suggest:$cursor]" "$line" 2>$null | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
        }
        """;

    /// <summary>Makes the command.</summary>
    public static Command Make(Terminal terminal)
    {
        var shell = new Argument<string>("SHELL") { Description = "bash, zsh, fish or pwsh" };
        shell.OneOf("bash", "zsh", "fish", "pwsh");
        var command = new ExampledCommand(
            "completion",
            "Print a script that completes this program's commands and options in a shell.",
            "source <(cablecatalog completion bash)",
            "cablecatalog completion fish > ~/.config/fish/completions/cablecatalog.fish")
        {
            shell,
        };
        command.SetAction(parsed =>
        {
            terminal.Out.WriteLine(parsed.GetRequiredValue(shell) switch
            {
                "zsh" => Zsh,
                "fish" => Fish,
                "pwsh" => PowerShell,
                _ => Bash,
            });
            return (int)ExitCode.Success;
        });
        return command;
    }
}
