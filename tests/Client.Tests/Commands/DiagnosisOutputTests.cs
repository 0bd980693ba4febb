using System.Text.Json;
using System.Xml.Linq;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Weight tests from the demo files to what people and scripts see, through the real service.</summary>
public sealed class DiagnosisOutputTests(Workplace workplace) : IClassFixture<Workplace>
{
    public static TheoryData<string> Commands =>
    [
        "diagnose plover-before",
        "diagnose stern-station",
        "diagnose dunlin-shift",
        "diagnose dunlin-throttle",
        "diagnose stern-station --units si",
        "verify plover-before plover-after",
        "plan plover-deflector",
        "plan dunlin-throttle --step 10N --units si",
        "compare plover-deflector --tests plover-before",
        "compare plover-stern-station --tests stern-station",
    ];

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task The_output_is_the_one_that_was_read_and_found_good(string command) => Golden.Matches(
        command.Replace(" --", "-", StringComparison.Ordinal).Replace(' ', '-'),
        (await workplace.RunAsync(Args(command))).Result.Replace($"{Repository.At()}/", "", StringComparison.Ordinal));

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks(string command)
    {
        string[] lines = (await workplace.RunAsync(Args(command))).Result.Split('\n');

        Assert.All(lines, line => Assert.True(line.Length <= 100 && line == line.TrimEnd(), line));
    }

    [Fact]
    public async Task The_cable_is_suspected_where_the_cable_is_worn() =>
        Assert.Equal("FAULT_KIND_LINER", await FirstSuspectAsync("plover-before"));

    [Fact]
    public async Task The_helm_is_suspected_where_the_helm_is_at_fault_and_not_the_cable() =>
        Assert.Equal("FAULT_KIND_HELM", await FirstSuspectAsync("stern-station"));

    [Fact]
    public async Task Readings_that_no_line_explains_are_said_to_bend()
    {
        JsonElement series = (await JsonAsync("diagnose", Tests("dunlin-shift"))).GetProperty("seriesEstimates")[0];

        Assert.False(series.GetProperty("linePossible").GetBoolean());
        Assert.Equal("SERIES_SHAPE_BENDS_UPWARD", series.GetProperty("shape").GetString());
        Assert.True(series.GetProperty("leastWideningN").GetDouble() > 0);
    }

    [Fact]
    public async Task A_single_reading_is_told_how_little_it_says()
    {
        JsonElement series = (await JsonAsync("diagnose", Tests("dunlin-throttle"))).GetProperty("seriesEstimates")[0];

        Assert.Contains("SERIES_WEAKNESS_SINGLE_READING", series.GetProperty("weaknesses").EnumerateArray().Select(w => w.GetString()));
        Assert.False(series.GetProperty("slope").TryGetProperty("most", out _));
        Assert.False(series.TryGetProperty("centreSlope", out _));
    }

    [Fact]
    public async Task A_new_cable_does_not_mend_a_bad_helm()
    {
        JsonElement told = await JsonAsync(
            "compare", Demo("plover-stern-station"), "--tests", Tests("stern-station"));
        JsonElement blamed = await JsonAsync("compare", Demo("plover-stern-station"));

        Assert.Equal("BASELINE_BASIS_DIAGNOSED", told.GetProperty("presentCable").GetProperty("basis").GetString());
        Assert.True(Saved(told) < Saved(blamed) - 20, $"{Saved(told)} N against {Saved(blamed)} N");

        static double Saved(JsonElement scores) => scores.GetProperty("gradeScores").EnumerateArray()
            .Single(score => score.GetProperty("grade").GetString() == "grades/jade")
            .GetProperty("savedN").GetProperty("likely").GetDouble();
    }

    [Theory]
    [InlineData("diagnose", "plover-before")]
    [InlineData("diagnose", "dunlin-shift")]
    [InlineData("diagnose", "dunlin-throttle")]
    [InlineData("verify", "plover-before", "plover-after")]
    public async Task A_report_of_a_real_answer_is_one_page_that_needs_nothing_else(string command, params string[] tests)
    {
        string page = workplace.At(string.Join('-', [command, .. tests]) + ".html");

        Ran ran = await workplace.RunAsync([command, .. tests.Select(Tests), "--report", page]);

        Assert.Equal(0, ran.Code);
        Assert.Contains(Path.GetFileName(page), ran.Error, StringComparison.Ordinal);
        XDocument read = XDocument.Load(page);
        Assert.Contains(read.Descendants(), e => e.Name.LocalName == "svg");
        Assert.DoesNotContain(read.Descendants(), e => e.Name.LocalName is "script" or "link" or "img");
    }

    [Fact]
    public async Task The_same_command_gives_the_same_bytes_twice()
    {
        string[] args = ["diagnose", Tests("plover-before"), "--output", "json"];

        Assert.Equal((await workplace.RunAsync(args)).Result, (await workplace.RunAsync(args)).Result);
    }

    [Fact]
    public async Task Series_that_contradict_each_other_are_refused_at_their_line()
    {
        string file = workplace.Write("contradicting.yaml", $$"""
            installation: {{Demo("plover-deflector")}}
            series:
              - connected: whole chain
                load: raise
                readings:
                  - { added: 0 lbf, held: 30 lbf, moved: 35 lbf }
              - connected: helm alone
                readings:
                  - { added: 0 lbf, held: 40 lbf, moved: 45 lbf }
            """);

        Ran ran = await workplace.RunAsync("diagnose", file);

        Assert.Equal((2, ""), (ran.Code, ran.Out));
        Assert.Contains("contradicting.yaml:7:", ran.Error, StringComparison.Ordinal);
    }

    private static string Demo(string name) => Repository.At("catalog-demo", name + ".yaml");

    private static string Tests(string name) => Repository.At("catalog-demo", "weight-tests", name + ".yaml");

    private static string[] Args(string command)
    {
        string[] words = command.Split(' ');
        return [.. words.Select((word, i) => i > 0 && word.Contains('-', StringComparison.Ordinal) && word[0] != '-'
            ? File.Exists(Tests(word)) && (words[0] != "plan" && words[0] != "compare" || words[i - 1] == "--tests")
                ? Tests(word)
                : Demo(word)
            : word)];
    }

    private async Task<string> FirstSuspectAsync(string tests) =>
        (await JsonAsync("diagnose", Tests(tests))).GetProperty("suspects")[0].GetProperty("kind").GetString()!;

    private async Task<JsonElement> JsonAsync(params string[] args) =>
        JsonDocument.Parse((await workplace.RunAsync([.. args, "--output", "json"])).Result).RootElement;
}
