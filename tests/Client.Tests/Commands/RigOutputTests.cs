using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CableCatalog.Client.Tests.Reports;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Rigging sheets from the demo files to what people and scripts see, through the real service.</summary>
public sealed class RigOutputTests(Workplace workplace) : IClassFixture<Workplace>
{
    public static TheoryData<string> Commands =>
    [
        "rig dunlin-shift",
        "rig dunlin-shift --grade marble --units si",
        "rig dunlin-throttle",
        "rig plover-routes",
        "rig plover-deflector",
        "rig plover-stern-station --grade jade",
    ];

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task The_output_is_the_one_that_was_read_and_found_good(string command) => Golden.Matches(
        command.Replace(" --", "-", StringComparison.Ordinal).Replace(' ', '-'), (await workplace.RunAsync(Args(command))).Result);

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks(string command)
    {
        string[] lines = (await workplace.RunAsync(Args(command))).Result.Split('\n');

        Assert.All(lines, line => Assert.True(line.Length <= 100 && line == line.TrimEnd(), line));
    }

    [Fact]
    public async Task What_the_cable_loses_adds_up_in_json()
    {
        RigControlResponse rigged = await JsonAsync("dunlin-shift");

        Assert.Equal(
            rigged.Travel.CableTravelM - rigged.Travel.ClearancePlayM - rigged.Travel.FittingsPlayM - rigged.Travel.StretchM,
            rigged.Travel.OutputTravelM,
            1e-12);
    }

    // Turned to the middle of the window that the sheet gives, the stop is squeezed no more and the sheet has nothing to turn.
    [Fact]
    public async Task A_stop_set_as_the_sheet_says_adds_nothing_at_the_hand()
    {
        RigControlResponse rigged = await JsonAsync("dunlin-shift");
        double wantedM = (rigged.Stop.LeastClearanceM + rigged.Stop.MostClearanceM) / 2;
        string text = await File.ReadAllTextAsync(Repository.Demo("dunlin-shift"));
        string set = WithClearance(text, wantedM);
        string file = workplace.Write("set.yaml", set);

        var after = JsonParser.Default.Parse<RigControlResponse>((await workplace.RunAsync("rig", file, "--output", "json")).Result);

        Assert.True(rigged.Stop.AddedEffortNowN > 1);
        Assert.Equal(StopVerdict.Placed, after.Stop.Verdict);
        Assert.True(after.Stop.HasAddedEffortNowN);
        Assert.Equal(0, after.Stop.AddedEffortNowN);
        Assert.True(after.Stop.LeastTurns <= 0 && after.Stop.MostTurns >= 0);
    }

    [Fact]
    public async Task A_lever_each_has_no_creep_to_set_a_stop_for()
    {
        string sheet = (await workplace.RunAsync("rig", Repository.Demo("plover-routes"))).Result;

        Assert.Contains("this does not apply", sheet.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("dunlin-shift")]
    [InlineData("plover-routes")]
    public async Task A_report_is_one_page_with_the_sweep_drawn_that_needs_nothing_else(string file)
    {
        string page = workplace.At("rigging.html");

        Ran ran = await workplace.RunAsync("rig", Repository.Demo(file), "--report", page, "--overwrite");

        Assert.Equal(0, ran.Code);
        XElement read = AnyPage.Read(await File.ReadAllTextAsync(page));
        Assert.NotEmpty(AnyPage.Pictures(read));
        Assert.Contains("Stop the engine", AnyPage.Texts(read), StringComparison.Ordinal);
    }

    private static string[] Args(string command) =>
        [.. command.Split(' ').Select(word => File.Exists(Repository.Demo(word)) ? Repository.Demo(word) : word)];

    private static string WithClearance(string text, double gapM) => Regex.Replace(
        text, "clearance: [0-9.]+ in", string.Create(CultureInfo.InvariantCulture, $"clearance: {gapM * 1000:0.000} mm"));

    private async Task<RigControlResponse> JsonAsync(string demo) => JsonParser.Default.Parse<RigControlResponse>(
        (await workplace.RunAsync("rig", Repository.Demo(demo), "--output", "json")).Result);
}
