using System.Globalization;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Figures of the demo installations worked out by hand from their files.</summary>
public sealed class ByHandTests(Workplace workplace) : IClassFixture<Workplace>
{
    // NIST SP 811 (2008), appendix B.8: exact.
    private const double NewtonsPerLbf = 4.4482216152605;

    [Fact]
    public async Task The_present_effort_of_plover_deflector_raise_step_by_step()
    {
        // Driven arm: 17 lbf at 8 in, the hole at 3.5 in, efficiency 0.92, friction 0.8 lbf.
        double leverLbf = 17 * 8 / 3.5;
        Assert.Equal(38.857142857, leverLbf, 5e-10);
        double armLbf = (leverLbf / 0.92) + 0.8;
        Assert.Equal(43.036024845, armLbf, 5e-10);

        // Inline device at the arm: force ratio 1, efficiency 0.85, drag 0.6 lbf.
        double outputLbf = (armLbf * 1 / 0.85) + 0.6;
        Assert.Equal(51.230617464, outputLbf, 5e-10);

        // Straights: 2.5 + 3 + 5 + 1.5 + 4 ft and 16 in.
        const double StraightFt = 2.5 + 3 + 5 + 1.5 + 4 + (16.0 / 12);

        // Arcs R theta: 90 deg at 10 in, 60 at 12, 45 at 11, 90 at 10, 55 at 12.
        double arcsIn = Math.PI / 180 * ((90 * 10) + (60 * 12) + (45 * 11) + (90 * 10) + (55 * 12));
        Assert.Equal(64.140850011, arcsIn, 5e-10);
        double lengthFt = StraightFt + (arcsIn / 12);
        Assert.Equal(22.678404168, lengthFt, 5e-10);

        // Capstan with wobble: planned 340 deg, likely wobble 0.9 deg for each foot, straight or bent.
        double angleDeg = 90 + 60 + 45 + 90 + 55 + (0.9 * lengthFt);
        Assert.Equal(360.410563751, angleDeg, 5e-10);
        double angleRad = angleDeg * Math.PI / 180;
        Assert.Equal(6.290350996, angleRad, 5e-10);

        // Friction 0.17; no seal drag, no running drag, no core: the capstan law alone.
        double amplification = Math.Exp(0.17 * angleRad);
        Assert.Equal(2.913513291, amplification, 5e-10);
        double inputLbf = outputLbf * amplification;
        Assert.Equal(149.261084879, inputLbf, 5e-10);

        // Helm: the sweep of -35 to 35 deg passes 0, where the crank is perpendicular to the cable and its moment arm is the
        // whole 3 in: cos 0 = 1. Grip 14 in, efficiency 0.95, friction 1 lbf.
        double worstArmIn = 3 * Math.Cos(0);
        double effortLbf = (inputLbf / (14 / worstArmIn * 0.95)) + 1;
        Assert.Equal(34.667913882, effortLbf, 5e-10);

        ScoreGradesResponse scores = await ScoresAsync("plover-deflector");
        Near(effortLbf * NewtonsPerLbf, scores.PresentCable.CaseEfforts[0].EffortN.Likely);
        Assert.Equal("raise", scores.PresentCable.CaseEfforts[0].LoadCase);

        string[] words = Row((await workplace.RunAsync("compare", Repository.Demo("plover-deflector"))).Result, "present");
        Assert.Equal("34.7", words[Array.IndexOf(words, "raise") + 1]);
    }

    [Fact]
    public async Task The_useful_load_of_dunlin_throttle_goes_through_the_levers_alone()
    {
        // 24 lbf at 3 in, hole at 2.5 in: 28.8 lbf at the cable; grip 7 in, crank 2.75 in, perpendicular within its sweep.
        double cableLbf = 24 * 3 / 2.5;
        Assert.Equal(28.8, cableLbf, 1e-12);
        double usefulLbf = cableLbf / (7 / 2.75);
        Assert.Equal(11.314285714, usefulLbf, 5e-10);

        // The arm's efficiency 0.95 and friction 0.3 lbf, seen through the same levers of the helm.
        double armLbf = ((cableLbf / 0.95) + 0.3 - cableLbf) / (7 / 2.75);
        Assert.Equal(0.713345865, armLbf, 5e-10);

        Ran ran = await workplace.RunAsync("explain", Repository.Demo("dunlin-throttle"), "--grade", "onyx", "--output", "json");
        EffortBreakdown grade = JsonParser.Default.Parse<ExplainGradeResponse>(ran.Result).CaseExplanations[0].Grade;
        Near(usefulLbf * NewtonsPerLbf, grade.Rows[0].EffortN);
        Near(armLbf * NewtonsPerLbf, grade.Rows[1].EffortN);

        string table = (await workplace.RunAsync("explain", Repository.Demo("dunlin-throttle"), "--grade", "onyx")).Result;
        Assert.Equal("11.3", Row(table, "useful")[2]);
    }

    [Theory]
    // 23.345 ft are needed; made in steps of 6 in from 3 ft: 23.5 ft.
    [InlineData("plover-deflector", 340 * 2, 23.5)]
    // 17.784 ft are needed: 18 ft.
    [InlineData("dunlin-throttle", 150 * 2, 18.0)]
    public async Task The_price_of_onyx_by_hand(string installation, int twiceBendDeg, double orderFt)
    {
        // Onyx: 112.00 USD, 17.00 USD for each metre, fittings 14.00 USD. A foot is 0.3048 m exactly.
        decimal metres = (decimal)orderFt * 0.3048m;
        decimal price = Math.Round(112.00m + (17.00m * metres) + 14.00m, 2, MidpointRounding.AwayFromZero);

        ScoreGradesResponse scores = await ScoresAsync(installation);

        GradeScore onyx = scores.GradeScores.Single(score => score.Grade == "grades/onyx");
        Near((double)metres, onyx.OrderLengthM);
        Near(twiceBendDeg * Math.PI / 360, scores.RouteFigures.TotalBendRad);
        Assert.Equal(price, onyx.Price.Units + (onyx.Price.Nanos / 1_000_000_000m));
        string table = (await workplace.RunAsync("compare", Repository.Demo(installation))).Result;
        Assert.Contains(price.ToString("0.00", CultureInfo.InvariantCulture), Row(table, "onyx"));
    }

    private async Task<ScoreGradesResponse> ScoresAsync(string installation) => JsonParser.Default.Parse<ScoreGradesResponse>(
        (await workplace.RunAsync("compare", Repository.Demo(installation), "--output", "json")).Result);

    // The words of the first line that has a word.
    private static string[] Row(string table, string word) => table.Split('\n')
        .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        .First(words => words.Take(2).Contains(word));

    private static void Near(double expected, double actual) =>
        Assert.True(Math.Abs(actual - expected) <= 1e-9 * Math.Abs(expected), $"expected {expected:R}, found {actual:R}");
}
