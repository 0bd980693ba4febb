using CableCatalog.Client.Output;
using CableCatalog.V1;
using YamlDotNet.Serialization;

namespace CableCatalog.Client.Tests.Output;

/// <summary>The test file that a plan gives to fill in.</summary>
public sealed class TestFileSkeletonTests
{
    [Theory]
    [InlineData(true, "0 lbf", "10 lbf")]
    // 10 lbf = 44.482 N, NIST Special Publication 811 (2008), appendix B.8.
    [InlineData(false, "0 N", "44.48 N")]
    public void It_is_yaml_with_the_planned_weights(bool us, string first, string second)
    {
        Dictionary<string, object> file = Read(Invented.Plan(), us ? Invented.Us : Invented.Si);

        Dictionary<object, object> series = Series(file)[0];
        Assert.Equal("whole chain", series["connected"]);
        Assert.Equal("raise", series["load"]);
        Assert.Equal("pull", series["direction"]);
        Assert.Equal("push", Series(file)[1]["direction"]);
        Dictionary<object, object?>[] readings =
            [.. ((List<object>)series["readings"]).Cast<Dictionary<object, object?>>()];
        Assert.Equal([first, second], readings.Select(reading => reading["added"]));
        Assert.All(readings, reading => Assert.Equal(["added", "held", "moved"], reading.Keys));
        Assert.All(readings, reading => Assert.True(string.IsNullOrEmpty((string?)reading["held"])));
    }

    [Theory]
    [InlineData("raise: quickly # not slowly")]
    [InlineData("null")]
    [InlineData("- 'up' \"there\"")]
    public void A_load_keeps_its_name_whatever_it_is(string name)
    {
        PlanWeightTestResponse plan = Invented.Plan();
        plan.PlannedSeries[0].LoadCase = name;

        Assert.Equal(name, Series(Read(plan, Invented.Us))[0]["load"]);
    }

    [Fact]
    public void A_long_name_is_not_wrapped()
    {
        PlanWeightTestResponse plan = Invented.Plan();
        plan.PlannedSeries[0].LoadCase = string.Join(' ', Enumerable.Repeat("raise", 16));

        string drawn = Drawn.OnAScreen(80, new PlanTable(plan, Invented.Installation(), "heron.yaml", Invented.Us).Draw);

        Assert.Contains($"    load: {plan.PlannedSeries[0].LoadCase}\n", drawn, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("boats/heron.yaml", "boats/heron.yaml")]
    [InlineData("my boat: #2.yaml", "my boat: #2.yaml")]
    [InlineData("null", "null")]
    [InlineData("-", "my-boat.yaml")]
    public void It_names_the_installation_as_it_was_named(string given, string written) =>
        Assert.Equal(written, Read(Invented.Plan(), Invented.Us, given)["installation"]);

    private static Dictionary<string, object> Read(
        PlanWeightTestResponse plan, Figures figures, string installationFile = "heron.yaml")
    {
        using var written = new StringWriter();
        TestFileSkeleton.Write(written, plan, installationFile, figures);
        return new DeserializerBuilder().Build().Deserialize<Dictionary<string, object>>(written.ToString());
    }

    private static Dictionary<object, object>[] Series(Dictionary<string, object> file) =>
        [.. ((List<object>)file["series"]).Cast<Dictionary<object, object>>()];
}
