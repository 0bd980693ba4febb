using System.CommandLine;
using System.CommandLine.Parsing;
using System.Diagnostics;
using CableCatalog.Client.Commands;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Tests.Commands;

public class HelpTests
{
    private static readonly RootCommand Root =
        CommandLine.Make(new Terminal(TextWriter.Null, TextWriter.Null, false, 100, _ => null));

    /// <summary>Every command by what a person types for it.</summary>
    public static TheoryData<string> Paths => [.. Walk(Root, "")];

    [Fact]
    public void There_are_thirty_four_commands_and_the_root() => Assert.Equal(35, Paths.Count);

    [Theory]
    [MemberData(nameof(Paths))]
    public async Task Help_ends_with_examples_that_the_command_line_takes(string path)
    {
        string[] words = path.Split(' ', StringSplitOptions.RemoveEmptyEntries);

        string help = (await Workplace.RunBareAsync([.. words, "--help"])).Result;

        string[] lines = help.TrimEnd().Split('\n');
        string[] examples = [.. lines.SkipWhile(line => line != "Examples:").Skip(1)];
        Assert.InRange(examples.Length, 1, 4);
        Assert.All(lines, line => Assert.InRange(line.Length, 0, 100));
        Assert.All(examples, example => AssertTaken(example, words));
    }

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [InlineData("pwsh")]
    public async Task A_script_for_a_shell_asks_the_program_itself(string shell) => Assert.Contains(
        "cablecatalog \"[suggest:", (await Workplace.RunBareAsync("completion", shell)).Result, StringComparison.Ordinal);

    [Theory]
    [InlineData("cablecatalog grades ", "add edit export import list remove show")]
    // Whatever has the letter in it; the shell keeps what starts with it.
    [InlineData("cablecatalog grades e", "edit export remove")]
    [InlineData("cablecatalog com", "compare completion")]
    [InlineData("cablecatalog compare x.yaml --rank ", "cost effort price")]
    [InlineData("cablecatalog compare x.yaml --units ", "si us")]
    [InlineData("cablecatalog diagnose x.yaml --output ", "csv json table")]
    [InlineData("cablecatalog completion ", "bash fish pwsh zsh")]
    public async Task The_program_suggests_what_may_come_next(string line, string expected)
    {
        string suggested = (await Workplace.RunBareAsync($"[suggest:{line.Length}]", line)).Result;

        string[] words = suggested.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(expected.Split(' '), words.Where(word => char.IsAsciiLetter(word[0])));
    }

    [Fact]
    public async Task Bash_takes_its_script_and_completes_with_it()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        string script = (await Workplace.RunBareAsync("completion", "bash")).Result;
        string program = $"cablecatalog() {{ dotnet '{ChildProcess.Program}' \"$@\"; }}";
        const string Typed = """
            COMP_LINE='cablecatalog grades e'
            COMP_POINT=${#COMP_LINE}
            COMP_WORDS=(cablecatalog grades e)
            COMP_CWORD=2
            cd /
            _cablecatalog
            printf '%s\n' "${COMPREPLY[@]}"
            """;

        Assert.Equal(new Ran(0, "", ""), await BashAsync(script, "-n"));
        string[] completed = (await BashAsync($"{program}\n{script}\n{Typed}")).Result.Split('\n');

        Assert.Contains("edit", completed);
        Assert.Contains("export", completed);
        Assert.DoesNotContain("import", completed);
    }

    private static IEnumerable<string> Walk(Command command, string path) =>
        command.Subcommands.SelectMany(sub => Walk(sub, $"{path} {sub.Name}".Trim())).Prepend(path);

    // What stands around the program's own words is for the shell.
    private static void AssertTaken(string example, string[] words)
    {
        const string Name = "cablecatalog ";
        string own = example[(example.IndexOf(Name, StringComparison.Ordinal) + Name.Length)..];
        string line = own.Split(['>', ')'])[0];

        ParseResult parsed = Root.Parse([.. CommandLineParser.SplitCommandLine(line)]);

        Assert.Empty(parsed.Errors);
        Assert.StartsWith(string.Join(' ', words), line, StringComparison.Ordinal);
        Assert.Empty(parsed.CommandResult.Command.Subcommands);
    }

    private static async Task<Ran> BashAsync(string script, params string[] options)
    {
        var start = new ProcessStartInfo("bash", [.. options, "-s"])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process bash = Process.Start(start)!;
        await bash.StandardInput.WriteAsync(script);
        bash.StandardInput.Close();
        Task<string> error = bash.StandardError.ReadToEndAsync();
        string output = await bash.StandardOutput.ReadToEndAsync();
        await bash.WaitForExitAsync();
        return new Ran(bash.ExitCode, output, await error);
    }
}
