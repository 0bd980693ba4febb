using CableCatalog.Client.Files;
using CableCatalog.Client.Tests.Commands;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Files;

public class ChangeFormsTests
{
    private static readonly string Whole = File.ReadAllText(Repository.Demo("plover-options"));

    [Fact]
    public void Every_change_of_the_demo_is_read()
    {
        Installation installation = InstallationFile.Parse("boat.yaml", Whole).Value!.Message;

        Assert.Equal(
            [
                Change.EffectOneofCase.TakeOut, Change.EffectOneofCase.Service, Change.EffectOneofCase.GripRadiusM,
                Change.EffectOneofCase.Holes,
            ],
            installation.Changes.Select(change => change.EffectCase));
        Assert.Equal("reducer at the deflector", installation.Changes[0].TakeOut.Device);
        Assert.Equal(
            (Mechanism.Helm, 0.95, 0.5 * 4.4482216152605),
            (installation.Changes[1].Service.Mechanism, installation.Changes[1].Service.Efficiency, installation.Changes[1].Service.FrictionN));
        Assert.Equal(16 * 0.0254, installation.Changes[2].GripRadiusM, 1e-12);
        Assert.Equal((false, 4.5 * 0.0254), (installation.Changes[3].Holes.HasCrankHoleM, installation.Changes[3].Holes.ArmHoleM));
        Assert.Equal((15, 17, 20), (
            Math.Round(installation.LoadCases[0].ForceRangeN.Low / 4.4482216152605),
            Math.Round(installation.LoadCases[0].ForceRangeN.Likely / 4.4482216152605),
            Math.Round(installation.LoadCases[0].ForceRangeN.High / 4.4482216152605)));
    }

    [Fact]
    public void A_device_may_be_taken_out_with_the_hole_that_the_cable_is_then_in()
    {
        DeviceTakenOut out_ = InstallationFile.Parse("boat.yaml", Whole.Replace(
            "take out: reducer at the deflector",
            "take out: { device: reducer at the deflector, arm hole: 3 in }",
            StringComparison.Ordinal)).Value!.Message.Changes[0].TakeOut;

        Assert.Equal("reducer at the deflector", out_.Device);
        Assert.Equal(0.0762, out_.ArmHoleM, 1e-12);
    }

    [Theory]
    [InlineData("    grip radius: 16 in", "    grip radius: 16 in\n    take out: x", "\"take out\" is a second effect of one change")]
    [InlineData("mechanism: helm", "mechanism: rudder", "\"rudder\" is not known here; expected helm or arm")]
    [InlineData("parts: 38.00 USD", "parts: 38 dollars", "expected an amount such as 21.00 USD")]
    [InlineData("direction: push, force: 7 lbf", "direction: push, force: 7 lbf, shown only: perhaps", "expected yes or no; found \"perhaps\"")]
    public void A_slip_is_answered_where_it_is(string good, string bad, string problem)
    {
        Assert.Contains(good, Whole, StringComparison.Ordinal);
        FileProblem found = Assert.Single(
            InstallationFile.Parse("boat.yaml", Whole.Replace(good, bad, StringComparison.Ordinal)).Problems);

        Assert.Contains(problem, found.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("yes", true)]
    [InlineData("no", false)]
    [InlineData("true", true)]
    public void A_load_may_be_shown_only(string word, bool expected) => Assert.Equal(
        expected,
        InstallationFile.Parse("boat.yaml", Whole.Replace(
            "direction: push, force: 7 lbf", $"direction: push, force: 7 lbf, shown only: {word}", StringComparison.Ordinal))
            .Value!.Message.LoadCases[1].ShownOnly);
}
