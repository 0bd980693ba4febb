using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.Client.Units;
using CableCatalog.V1;
using static CableCatalog.Client.Tests.Reports.AnyPage;

namespace CableCatalog.Client.Tests.Reports;

public class DiagnosisReportTests
{
    [Fact]
    public void A_page_says_everything_that_the_answer_says()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();

        string texts = Texts(Page(diagnosis, test));

        string[] said =
        [
            "Weight test: Plover, deflector (invented)",
            WeightTestWords.Verdict(diagnosis, test, Us),
            "Cable fitted during the test: grade marble. Catalogue revision 41.",
            diagnosis.Cautions.OneLine,
            .. diagnosis.Cautions.InFull,
            .. diagnosis.Assumptions.Select(assumption => AssumptionWords.Of(assumption, Us)),
            .. WeightTestWords.ExactReadings(test),
            .. WeightTestWords.Priors(diagnosis, Us),
            .. diagnosis.Suspects.Select(suspect => WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice)),
            .. diagnosis.Suspects.Select(suspect => WeightTestWords.Needed(suspect, Us)),
            .. diagnosis.Suspects.SelectMany(suspect => WeightTestWords.Reasons(suspect, diagnosis, test, Us)),
            .. diagnosis.SeriesEstimates.SelectMany(estimate => WeightTestWords.SeriesNotes(estimate, Us)),
            .. CableLines.Of(diagnosis.CableBehaviour),
            WeightTestWords.NextTest(diagnosis.NextTests[0], test, diagnosis.WeightStepN, Us),
            .. diagnosis.NextTests[0].Outcomes.Select(outcome => WeightTestWords.Outcome(outcome, Us)),
            WeightTestWords.Considered(diagnosis),
        ];
        Assert.All(said, text => Assert.Contains(text, texts, StringComparison.Ordinal));
    }

    // The figures are those of Samples, in the units they were built in.
    [Theory]
    [InlineData("1. everything connected: whole chain, raise (pull)")]
    [InlineData("2. cable alone, coiled one turn at 10 in (pull)")]
    [InlineData("With nothing hung: 35.4 to 39.9 lbf (nine in ten possible lines: 35.9 to 39.4). "
        + "Rise for each lbf hung: 0.86 to 1.02 lbf (without friction 0.52). Shape: straight.")]
    [InlineData("Sound parts as described would take 25.7 (22.9 to 29.9) lbf with nothing hung "
        + "and 61.7 (55.9 to 69.9) lbf with 50.0 lbf hung.")]
    [InlineData("With nothing hung: at least 0.0 lbf, no upper bound. Rise for each lbf hung: at least 0.13 lbf, no upper bound "
        + "(without friction 0.13). Shape: cannot tell.")]
    [InlineData("9.8 (3.1 to 13.2) lbf")]
    [InlineData("0.25 (0.12 to 0.36) lbf")]
    [InlineData("37.6 (35.2 to 39.9) lbf")]
    [InlineData("61 % (before any reading 12 %)")]
    [InlineData("under 1 % (before any reading 50 %)")]
    [InlineData("7.9 (4.2 to 11.2) lbf")]
    [InlineData("0.23 to 0.33")]
    [InlineData("Where the effort goes: raise (pull)")]
    [InlineData("Next test, with weights in steps of 5 lbf:")]
    [InlineData("Suspects still in question: about 2.4, after this test about 1.3, as expected.")]
    [InlineData("uncertain by about 4.1 lbf now, by about 1.6 lbf then")]
    [InlineData("cable off at the arm (pull), hang 20 lbf: suspects still in question about 2.4, then about 1.7")]
    public void Figures_stand_in_the_page(string text) => Assert.Contains(text, Texts(Page()), StringComparison.Ordinal);

    [Fact]
    public void A_control_that_may_be_jammed_is_said_to_be_at_the_top()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        Assert.DoesNotContain("jammed", Header(Page(diagnosis, test)), StringComparison.Ordinal);

        // 300 N is over 222.4 N.
        test.Series[0].Readings.Add(new WeightReading { HeldN = 300 });

        Assert.Contains(WeightTestWords.Jammed(test, Us), Header(Page(diagnosis, test)), StringComparison.Ordinal);

        static string Header(XElement page) => page.Descendants().Single(e => e.Name.LocalName == "header").Value;
    }

    [Fact]
    public void Suspects_without_chances_have_no_blank_columns()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        foreach (Suspect suspect in diagnosis.Suspects)
        {
            suspect.ClearProbability();
        }

        string[] headings = [.. Page(diagnosis, test).Descendants().Attributes("data-heading").Select(a => a.Value).Distinct()];

        Assert.Contains("How likely before any reading", headings);
        Assert.DoesNotContain("It would have to be", headings);
        Assert.DoesNotContain("Adds at the grip", headings);
    }

    [Fact]
    public void A_plot_says_in_words_what_was_read()
    {
        string description = Pictures(Page()).First().Elements().Single(e => e.Name.LocalName == "desc").Value;

        // The readings of Samples: 37.6 + 0.94 x, give or take 2.5 lbf.
        Assert.StartsWith(
            "Read: above 35.1 and not above 40.1 lbf with nothing hung; above 44.5 and not above 49.5 lbf with 10 lbf hung;",
            description,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Every_reading_is_drawn_as_a_bracket_and_an_open_one_as_an_arrow()
    {
        XElement[] plots = [.. Pictures(Page())];

        // Samples: five closed readings in the first series; two that never moved in the third, and an arrow that says so.
        Assert.Equal((5, 0), (Drawn(plots[0], "bracket"), Drawn(plots[0], "arrowhead")));
        Assert.Equal((2, 3), (Drawn(plots[2], "bracket"), Drawn(plots[2], "arrowhead")));
    }

    [Fact]
    public void A_reading_that_was_not_seen_to_hold_is_open_below()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        diagnosis.SeriesEstimates[0].Brackets[0].LeastN = 0;

        XElement page = Page(diagnosis, test);

        Assert.Equal(1, Drawn(Pictures(page).First(), "arrowhead"));
        Assert.Contains("Read: not above 40.1 lbf with nothing hung;", Texts(page), StringComparison.Ordinal);
    }

    [Fact]
    public void Units_are_those_that_were_asked_for()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();

        string texts = Texts(Read(DiagnosisReport.Html(diagnosis, test, new Figures(UnitSystem.Si))));

        // 37.6, 35.2 and 39.9 lbf times 4.4482216152605 (NIST SP 811), by hand.
        Assert.Contains("167.3 (156.6 to 177.5) N", texts, StringComparison.Ordinal);
        Assert.DoesNotContain("lbf", texts, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_are_text_whatever_they_hold()
    {
        const string Name = "<script>alert(1)</script> & \"quotes\" 'and' ]]> &lt; ";

        Assert.All(NamedThings(Name), text => Assert.Contains(text, Texts(PageWith(Name)), StringComparison.Ordinal));
    }

    // XML 1.0, production [2]: these are no characters of a document.
    [Fact]
    public void Characters_that_no_page_may_hold_are_replaced() =>
        Assert.All(
            NamedThings("\uFFFD \uFFFD \uFFFD \U0001F6A4"),
            text => Assert.Contains(text, Texts(PageWith("\u0001 \uD800 \uFFFE \U0001F6A4")), StringComparison.Ordinal));

    [Fact]
    public void An_answer_with_nothing_in_it_is_a_page_all_the_same()
    {
        XElement page = Page(new DiagnoseInstallationResponse(), new WeightTest { Installation = new Installation() });

        Assert.Empty(Pictures(page));
        Assert.Contains("No further test that was considered would narrow the question.", Texts(page), StringComparison.Ordinal);
    }

    [Fact]
    public void A_series_that_no_line_explains_has_its_readings_and_its_reason()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        SeriesEstimate estimate = diagnosis.SeriesEstimates[0];
        (estimate.LinePossible, estimate.Shape, estimate.LeastWideningN) = (false, SeriesShape.BendsUpward, 8.9);
        (estimate.BaselineN, estimate.Slope) = (null, null);
        estimate.Band.Clear();
        estimate.OddReadings.Add(5);

        XElement page = Page(diagnosis, test);

        Assert.Equal((5, 0), (Drawn(Pictures(page).First(), "bracket"), Drawn(Pictures(page).First(), "possible")));

        // 8.9 N over 4.4482 N in a pound-force is 2.0.
        const string Odd = "unless each may be off by 2.0 lbf, up or down; reading 5 (40 lbf hung) is the odd one out";
        Assert.Contains(Odd, Texts(page), StringComparison.Ordinal);
    }

    [Fact]
    public void A_share_without_an_upper_bound_ends_in_an_arrow()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        diagnosis.PartShares[3].BaselineN = Lines.AtLeast(3.1);

        XElement page = Page(diagnosis, test);

        Assert.Contains("at least 3.1 lbf, no upper bound", Texts(page), StringComparison.Ordinal);
        Assert.Equal(1, Drawn(Pictures(page).Single(IsWaterfall), "arrowhead"));
    }

    [Fact]
    public void A_cable_that_may_lock_is_said_to_lock()
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        diagnosis.SeriesEstimates[0].Predicted[^1].EffortN.ClearHigh();

        Assert.Contains("61.7 (55.9 to locks) lbf with 50.0 lbf hung", Texts(Page(diagnosis, test)), StringComparison.Ordinal);
    }

    // Each bar begins where the one before it ended, from the load to the hand.
    [Fact]
    public void Bars_of_the_waterfall_follow_each_other()
    {
        XElement[] bars =
        [
            .. Pictures(Page()).Single(IsWaterfall).Descendants().Where(e => (string?)e.Attribute("class") is "useful" or "part"),
        ];

        Assert.Equal(5, bars.Length);
        Assert.All(
            bars.Zip(bars.Skip(1)),
            pair => Assert.Equal(Number(pair.First, "x") + Number(pair.First, "width"), Number(pair.Second, "x"), 0.02));

        // Samples: medians of 20.8, 1.1, 3.7, 9.8 and 1.9 lbf are drawn to one scale.
        double perPound = Number(bars[0], "width") / 20.8;
        Assert.Equal(9.8 * perPound, Number(bars[3], "width"), 0.02);
    }

    private static string[] NamedThings(string name) =>
        [$"Weight test: {name}", $"Where the effort goes: {name}", $"1. {name}: whole chain", $"stiff {name}"];

    private static XElement PageWith(string name)
    {
        (DiagnoseInstallationResponse diagnosis, WeightTest test) = Samples.Diagnosis();
        test.Installation.DisplayName = name;
        diagnosis.EffortLoadCase = name;
        diagnosis.SeriesEstimates[0].DisplayName = name;
        diagnosis.PartShares[2].InlineDevice = name;
        diagnosis.Suspects[1].InlineDevice = name;
        return Page(diagnosis, test);
    }

    private static XElement Page() => Samples.Diagnosis() is var (diagnosis, test) ? Page(diagnosis, test) : null!;

    private static XElement Page(DiagnoseInstallationResponse diagnosis, WeightTest test) =>
        Read(DiagnosisReport.Html(diagnosis, test, Us));

    private static int Drawn(XElement picture, string look) =>
        picture.Descendants().Count(element => (string?)element.Attribute("class") == look);

    private static bool IsWaterfall(XElement picture) =>
        picture.Elements().First().Value.StartsWith("Where the effort goes", StringComparison.Ordinal);

    private static double Number(XElement element, string attribute) => (double)element.Attribute(attribute)!;
}
