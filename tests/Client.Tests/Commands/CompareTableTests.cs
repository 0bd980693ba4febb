using System.Text;
using System.Text.RegularExpressions;
using CableCatalog.Client.Commands;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>What people see of compare and explain.</summary>
public sealed partial class CompareTableTests(Workplace workplace) : IClassFixture<Workplace>
{
    private const int Page = 100;

    public static TheoryData<string> Commands =>
    [
        "compare dunlin-shift",
        "compare dunlin-throttle",
        "compare plover-deflector",
        "compare plover-stern-station",
        "compare plover-deflector --units si",
        "compare dunlin-throttle --rank effort --top 3",
        "explain plover-deflector --grade jade",
        "explain dunlin-shift --grade glass",
        "explain dunlin-throttle --grade shingle --units si",
        "explain plover-stern-station --grade marble",
        "grades list",
        "grades list --units si",
    ];

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task The_output_is_the_one_that_was_read_and_found_good(string command) =>
        Golden.Matches(
            command.Replace(" --", "-", StringComparison.Ordinal).Replace(' ', '-'),
            (await workplace.RunAsync(Args(command))).Result);

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks_or_is_styled(string command)
    {
        string output = (await workplace.RunAsync(Args(command))).Result;

        AssertTidy(output);
        Assert.DoesNotContain('\x1b', output);
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task A_writer_that_knows_only_ascii_gets_only_ascii(string command)
    {
        using var written = new MemoryStream();
        await using var output = new StreamWriter(written, new ASCIIEncoding()) { NewLine = "\n", AutoFlush = true };

        int code = await RunOnAsync(output, false, Page, [], Args(command));

        string text = Encoding.Latin1.GetString(written.ToArray());
        Assert.Equal(0, code);

        // A writer puts a question mark in the place of what it does not know.
        Assert.DoesNotContain('?', text);
        Assert.All(text, c => Assert.InRange(c, '\n', '~'));
        AssertTidy(text);
    }

    [Fact]
    public async Task A_screen_shows_the_best_buy_in_bold_and_misfits_dim()
    {
        string[] lines = await OnScreenAsync([]);

        // The star marks jade in the golden output; cobble does not fit there.
        Assert.Contains(
            lines,
            line => line.Contains("\x1b[1m", StringComparison.Ordinal) && line.Contains("jade", StringComparison.Ordinal));
        Assert.Contains(
            lines,
            line => line.Contains("\x1b[2m", StringComparison.Ordinal) && line.Contains("cobble", StringComparison.Ordinal));
        Assert.DoesNotContain(
            lines,
            line => line.Contains("\x1b[", StringComparison.Ordinal) && line.Contains("onyx", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("NO_COLOR", "1")]
    [InlineData("TERM", "dumb")]
    public async Task A_screen_is_not_styled_where_the_environment_says_so(string variable, string value) =>
        Assert.DoesNotContain(
            '\x1b', string.Concat(await OnScreenAsync(new Dictionary<string, string> { [variable] = value })));

    [Fact]
    public async Task A_wide_screen_says_what_a_pipe_gets()
    {
        string[] piped = (await workplace.RunAsync(Args("compare plover-deflector"))).Result.Split('\n');

        Assert.Equal(piped, (await OnScreenAsync([])).Select(line => Style().Replace(line, "").TrimEnd()));
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task A_screen_of_80_columns_is_not_overrun(string command)
    {
        using var output = new StringWriter { NewLine = "\n" };

        int code = await RunOnAsync(output, true, 80, [], Args(command));

        Assert.Equal(0, code);
        Assert.DoesNotContain('…', output.ToString());
        Assert.All(output.ToString().Split('\n'), line => Assert.InRange(Style().Replace(line, "").Length, 0, 80));
    }

    [Fact]
    public async Task The_readme_shows_what_compare_prints()
    {
        string[] readme = await File.ReadAllLinesAsync(Repository.At("README.md"));
        IEnumerable<string> shown = readme
            .SkipWhile(line => line != "    $ cablecatalog compare catalog-demo/plover-deflector.yaml")
            .Skip(2)
            .TakeWhile(line => line.Length == 0 || line.StartsWith("    ", StringComparison.Ordinal))
            .Select(line => line.Length == 0 ? "" : line[4..]);

        string printed = (await workplace.RunAsync(Args("compare plover-deflector"))).Result;

        Assert.Equal(printed.TrimEnd('\n'), string.Join('\n', shown).TrimEnd('\n'));
    }

    [Fact]
    public async Task A_pipe_of_a_latin_1_locale_gets_only_ascii()
    {
        var latin = new Dictionary<string, string> { ["LC_ALL"] = "en_US.ISO-8859-1" };

        Ran ran = await ChildProcess.RunAsync(latin, "", [.. Args("compare plover-deflector"), "--catalog", workplace.Catalog]);

        Assert.DoesNotContain('?', ran.Result);
        Assert.All(ran.Result, c => Assert.InRange(c, '\n', '~'));
    }

    [Fact]
    public async Task A_process_of_its_own_prints_what_the_tests_see()
    {
        string[] command = [.. Args("compare plover-deflector"), "--catalog", workplace.Catalog];

        Ran ran = await ChildProcess.RunAsync(new Dictionary<string, string> { ["LC_ALL"] = "C.UTF-8" }, "", command);

        Assert.Equal((await Workplace.RunBareAsync(command)).Result, ran.Result);
    }

    [Fact]
    public async Task A_dash_reads_the_installation_from_standard_input()
    {
        string text = await File.ReadAllTextAsync(Repository.Demo("plover-deflector"));

        Ran ran = await ChildProcess.RunAsync(
            new Dictionary<string, string> { ["LC_ALL"] = "C.UTF-8" }, text, "compare", "-", "--catalog", workplace.Catalog);

        Assert.Equal((await workplace.RunAsync(Args("compare plover-deflector"))).Result, ran.Result);
    }

    // "compare plover-deflector --top 3" with the name of a demo installation in the place of its file.
    internal static string[] Args(string command) =>
        [.. command.Split(' ').Select(word => Repository.Installations.Contains(word) ? Repository.Demo(word) : word)];

    private static void AssertTidy(string output)
    {
        Assert.EndsWith("\n", output, StringComparison.Ordinal);
        Assert.All(output.Split('\n'), line =>
        {
            Assert.InRange(line.Length, 0, Page);
            Assert.Equal(line.TrimEnd(), line);
        });
    }

    private async Task<string[]> OnScreenAsync(Dictionary<string, string> variables)
    {
        using var output = new StringWriter { NewLine = "\n" };
        Assert.Equal(0, await RunOnAsync(output, true, Page, variables, Args("compare plover-deflector")));
        return output.ToString().Split('\n');
    }

    private async Task<int> RunOnAsync(
        TextWriter output, bool isInteractive, int columns, Dictionary<string, string> variables, string[] args)
    {
        using var error = new StringWriter();
        int code = await CommandLine.RunAsync(
            [.. args, "--catalog", workplace.Catalog],
            new Terminal(output, error, isInteractive, columns, variables.GetValueOrDefault));
        Assert.Equal("", error.ToString());
        return code;
    }

    [GeneratedRegex(@"\x1b\[[0-9;]*m")]
    private static partial Regex Style();
}
