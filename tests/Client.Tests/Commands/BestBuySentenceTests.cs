namespace CableCatalog.Client.Tests.Commands;

/// <summary>The advice, one test a verdict, over the demo grades.</summary>
/// <remarks>Efforts of plover-deflector in pull, in lbf (low, likely, high): present 33.77, 34.668, 35.82; onyx 18.86, 21.753,
/// 26.98; marble 20.79, 25.557, 33.85; jade 17.22, 19.153, 22.146; glass 15.73, 16.817, 18.536: computed by an independent
/// implementation. Prices by hand: order length 23.5 ft = 7.1628 m (glass: 24 ft = 7.3152 m); onyx
/// 126 + 17 * 7.1628 = 247.77, jade 164 + 21.5 * 7.1628 = 318.00, glass 208 + 26 * 7.3152 = 398.20.</remarks>
public sealed class BestBuySentenceTests(Workplace workplace) : IClassFixture<Workplace>
{
    private const string Limit = "effort limit: 20 lbf";

    [Fact]
    public async Task The_cheapest_that_likely_meets_the_limit() => Assert.Equal(
        // Saved 34.668 - 19.153 = 15.515; 318.00/15.515 = 20.50.
        "Best buy: Jade at 318.00 USD is the cheapest that does it: from 34.7 lbf to about 19.2 lbf at the grip, "
            + "saving 15.5 lbf, likely under your limit of 20.0 lbf, though it could come out at 22.1 lbf, "
            + "for 20.50 USD a pound saved.",
        await AdviceAsync("likely", text => text));

    [Fact]
    public async Task The_cheapest_that_surely_meets_the_limit() => Assert.Equal(
        // Saved 34.668 - 16.817 = 17.851; 398.20/17.851 = 22.31.
        "Best buy: Glass at 398.20 USD is the cheapest that does it: from 34.7 lbf to about 16.8 lbf at the grip, "
            + "saving 17.9 lbf, under your limit of 19.0 lbf over its whole assumed band, for 22.31 USD a pound saved.",
        await AdviceAsync("surely", text => text.Replace(Limit, "effort limit: 19 lbf", StringComparison.Ordinal)));

    [Fact]
    public async Task The_least_cost_for_each_pound_where_there_is_no_limit() => Assert.Equal(
        // Saved 34.668 - 21.753 = 12.915; 247.77/12.915 = 19.18.
        "Best buy: Onyx at 247.77 USD saves the most for its money: from 34.7 lbf to about 21.8 lbf at the grip, "
            + "saving 12.9 lbf, for 19.18 USD a pound saved.",
        await AdviceAsync("least", text => text.Replace(Limit, "", StringComparison.Ordinal)));

    [Fact]
    public async Task The_least_cost_for_each_newton_in_si_units() => Assert.Equal(
        // 34.6679 lbf = 154.21 N, 21.7526 lbf = 96.76 N, the difference 57.45 N; 247.77/57.45 = 4.31.
        "Best buy: Onyx at 247.77 USD saves the most for its money: from 154.2 N to about 96.8 N at the grip, "
            + "saving 57.5 N, for 4.31 USD a newton saved.",
        await AdviceAsync("si", text => text.Replace(Limit, "", StringComparison.Ordinal), "--units", "si"));

    [Fact]
    public async Task The_present_cable_where_it_is_easy_enough() => Assert.Equal(
        "Keep the present cable: its effort of 34.7 lbf is already within your limit of 40.0 lbf.",
        await AdviceAsync("keep", text => text.Replace(Limit, "effort limit: 40 lbf", StringComparison.Ordinal)));

    [Fact]
    public async Task The_closest_where_none_meets_the_limit() => Assert.Equal(
        "No grade that fits is likely to meet your limit of 10.0 lbf; Glass at 398.20 USD comes closest: "
            + "from 34.7 lbf to about 16.8 lbf at the grip, saving 17.9 lbf. "
            + "Look at the route, the inline devices and the hole in the arm before paying for it.",
        await AdviceAsync("none-meets", text => text.Replace(Limit, "effort limit: 10 lbf", StringComparison.Ordinal)));

    [Fact]
    public async Task Nothing_where_none_saves() => Assert.Equal(
        // With a friction of 0.01 the present cable takes less than glass with 0.045.
        "No grade that fits is likely to save anything here: another cable would not help; "
            + "look at the route, the arm and the helm.",
        await AdviceAsync("none-saves", text => text
            .Replace("friction: 0.17", "friction: 0.01", StringComparison.Ordinal).Replace(Limit, "", StringComparison.Ordinal)));

    [Fact]
    public async Task Nothing_where_none_fits() => Assert.Equal(
        // The least radius of any grade is marble's 6 in.
        "No grade in the catalogue fits this installation; the reasons are below.",
        await AdviceAsync("none-fits", text => text.Replace("radius: 11 in", "radius: 5 in", StringComparison.Ordinal)));

    [Fact]
    public async Task A_diagnosis_where_no_friction_explains_the_measurement() => Assert.Equal(
        // As in the calculation by hand, with a friction of 0.5: 51.2306 e^(0.5 * 6.29035)/4.43333 + 1 = 269.4 lbf.
        "Buy nothing yet: no plausible cable friction explains the measured 300.0 lbf (one of 0.5 would take 269.4 lbf), "
            + "so something else is at fault; take the chain apart, test each part by itself and come back.",
        await AdviceAsync("diagnose", text => text.Replace(
            "{ friction: 0.17 }", "{ measured effort: { effort: 300 lbf, in: raise } }", StringComparison.Ordinal)));

    [Fact]
    public async Task A_measured_effort_saves_up_to() => Assert.Equal(
        // The measured 34.668 lbf takes the friction of 0.17 again.
        "Best buy: Onyx at 247.77 USD saves the most for its money: from 34.7 lbf to about 21.8 lbf at the grip, "
            + "saving up to 12.9 lbf, for 19.18 USD a pound saved.",
        await AdviceAsync("measured", text => text.Replace(Limit, "", StringComparison.Ordinal).Replace(
            "{ friction: 0.17 }", "{ measured effort: { effort: 34.667913882 lbf, in: raise } }", StringComparison.Ordinal)));

    [Fact]
    public async Task A_cable_that_locks_is_replaced_by_the_cheapest_that_fits() => Assert.Equal(
        // Pushed through 11 ft of straight with a clearance of 20 mm the core snakes until it locks. The cheapest that fits
        // and is known not to lock is sandstone, 18 ft = 5.4864 m, 44 + 6.2 * 5.4864 = 78.02.
        "Replace the present cable, which may lock or is not fit for this route: Sandstone at 78.02 USD fits, "
            + "at about 27.4 lbf at the grip. Note: open: the core may carry 93.5 lbf, over its rated push of 80.0 lbf.",
        await AdviceOfAsync("dunlin-throttle", "locked", text => text
            .Replace("diametral clearance: 0.8 mm", "diametral clearance: 19 mm", StringComparison.Ordinal)
            .Replace(Limit, "", StringComparison.Ordinal)));

    [Fact]
    public async Task A_cable_that_is_not_fit_is_replaced_by_the_cheapest_that_meets_the_limit() => Assert.Equal(
        // Shingle has a travel of 3 in, and the helm moves it 2 * 3 in * sin 35 deg = 3.44 in.
        "Replace the present cable, which may lock or is not fit for this route: Jade at 318.00 USD fits, "
            + "at about 19.2 lbf at the grip.",
        await AdviceAsync("unfit", text => text.Replace("friction: 0.17", "grade: shingle", StringComparison.Ordinal)));

    [Fact]
    public async Task A_cable_that_is_not_fit_is_replaced_by_the_closest_where_none_meets_the_limit() => Assert.Equal(
        "Replace the present cable, which may lock or is not fit for this route: Glass at 398.20 USD fits, "
            + "at about 16.8 lbf at the grip, over your limit of 10.0 lbf.",
        await AdviceAsync("unfit-closest", text => text
            .Replace("friction: 0.17", "grade: shingle", StringComparison.Ordinal)
            .Replace(Limit, "effort limit: 10 lbf", StringComparison.Ordinal)));

    private Task<string> AdviceAsync(string name, Func<string, string> change, params string[] options) =>
        AdviceOfAsync("plover-deflector", name, change, options);

    // The advice stands between the table and what explains it, or the next empty line.
    private async Task<string> AdviceOfAsync(
        string installation, string name, Func<string, string> change, params string[] options)
    {
        string text = await File.ReadAllTextAsync(Repository.Demo(installation));
        string file = workplace.Write(name + ".yaml", change(text));

        string[] lines = (await workplace.RunAsync(["compare", file, .. options])).Result.Split('\n');

        int end = Array.FindLastIndex(lines, line => line.Length > 10 && line.All(c => c == '─'));
        return string.Join(' ', lines.Skip(end + 1).TakeWhile(
            line => line.Length > 0 && !line.StartsWith("Limit: ", StringComparison.Ordinal)));
    }
}
