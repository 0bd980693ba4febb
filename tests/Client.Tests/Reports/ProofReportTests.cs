using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;
using static CableCatalog.Client.Tests.Reports.AnyPage;

namespace CableCatalog.Client.Tests.Reports;

public class ProofReportTests
{
    // The figures are those of Samples, in the units they were built in.
    [Theory]
    [InlineData("Before and after a new cable: Plover, deflector (invented)")]
    [InlineData("they allow what heron was predicted to take, and other efforts too. "
        + "Really saved in the worst load case: 16.3 (13.1 to 19.4) lbf.")]
    [InlineData("New cable: grade heron. Catalogue revision 42.")]
    [InlineData("37.6 (35.2 to 39.9) lbf")]
    [InlineData("21.2 (18.4 to 25.3) lbf")]
    [InlineData("21.3 (20.1 to 22.4) lbf")]
    [InlineData("16.4 (10.6 to 21.1) lbf")]
    [InlineData("16.3 (13.1 to 19.4) lbf")]
    [InlineData("5.0 (3.0 to 7.0) lbf")]
    [InlineData("effort limit 25.0 lbf")]
    // 2.68, 3.19 and 3.97 USD a newton times 4.4482 N in a pound-force (NIST SP 811), by hand.
    [InlineData("Cost: 231.40 USD (paid); 14.19 USD per lbf really saved (11.92 to 17.66).")]
    [InlineData("Before only: 3. cable alone, coiled one turn at 10 in (pull)")]
    public void Figures_stand_in_the_page(string text) => Assert.Contains(text, Texts(Page()), StringComparison.Ordinal);

    [Fact]
    public void A_page_says_what_is_assumed_and_what_to_heed()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();

        string texts = Texts(Page(proof, before, after));

        string[] said =
        [
            proof.Cautions.OneLine,
            .. proof.Cautions.InFull,
            .. proof.Assumptions.Select(assumption => AssumptionWords.Of(assumption, Us)),
            .. CableLines.Of(proof.CableBehaviour),
            .. WeightTestWords.ExactReadings(before).Select(text => $"before: {text}"),
            .. WeightTestWords.ExactReadings(after).Select(text => $"after: {text}"),
        ];
        Assert.All(said, text => Assert.Contains(text, texts, StringComparison.Ordinal));
    }

    [Fact]
    public void Readings_before_and_after_stand_in_one_picture()
    {
        XElement plot = Pictures(Page()).Single(picture => IsOf(Title(picture), "raise (pull), before and after"));

        // Samples: five readings each time.
        Assert.Equal(5, Brackets(plot, "before"));
        Assert.Equal(5, Brackets(plot, "after"));
    }

    [Fact]
    public void A_series_made_before_only_looks_as_those_before_do()
    {
        XElement plot = Pictures(Page()).Single(picture => IsOf(Title(picture), "Before only: 3. cable alone, coiled one turn at 10 in (pull)"));

        // Samples: two readings.
        Assert.Equal(2, Brackets(plot, "before"));
        Assert.Equal(0, Brackets(plot, "after"));
        Assert.DoesNotContain(plot.Descendants(), e => (string?)e.Attribute("class") is "possible" or "inner");
    }

    [Fact]
    public void A_series_made_with_another_coil_is_not_the_same_one()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        proof.AfterEstimates.Add(proof.BeforeEstimates[2].Clone());
        after.Series.Add(before.Series[2].Clone());
        const string Both = "in (pull), before and after";
        Assert.Contains(Titles(Page(proof, before, after)), title => IsOf(title, Both));

        after.Series[2].CoilRadiusM = 0.508;

        Assert.DoesNotContain(Titles(Page(proof, before, after)), title => IsOf(title, Both));
    }

    [Fact]
    public void A_saving_that_may_be_none_has_no_upper_bound_of_its_cost()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        proof.SavedN = Lines.Of(-2, -1, 1, 3, 4);
        proof.MostCostPerNewtonSaved = null;
        proof.CostWasPaid = false;

        string texts = Texts(Page(proof, before, after));

        Assert.Contains("1.0 (-2.0 to 4.0) lbf", texts, StringComparison.Ordinal);
        Assert.All(SavedLines.Of(proof, Us), line => Assert.Contains(line, texts, StringComparison.Ordinal));
        Assert.Contains("(at least 11.92, no upper bound)", texts, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_was_saved_no_cost_of_a_pound_saved_is_given()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        proof.SavedN = Lines.Of(-4, -3, -2, -1, -0.5);
        (proof.LeastCostPerNewtonSaved, proof.MiddleCostPerNewtonSaved, proof.MostCostPerNewtonSaved) = (null, null, null);

        Assert.Contains(
            "nothing was saved, so no USD per lbf really saved", Texts(Page(proof, before, after)), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_limit_none_is_drawn()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        Assert.Equal(2, Page(proof, before, after).Descendants().Count(IsLimit));

        after.Installation.ClearEffortLimitN();

        Assert.Equal(0, Page(proof, before, after).Descendants().Count(IsLimit));
    }

    [Fact]
    public void An_effort_without_an_upper_bound_ends_in_an_arrow()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        proof.CaseProofs[0].AfterN = Lines.AtLeast(20.1);

        XElement page = Page(proof, before, after);

        Assert.Contains("at least 20.1 lbf, no upper bound", Texts(page), StringComparison.Ordinal);
        Assert.Single(Pictures(page).First().Descendants(), element => (string?)element.Attribute("class") == "arrowhead");
    }

    [Fact]
    public void A_new_cable_that_locks_promises_nothing()
    {
        (VerifyCableResponse proof, WeightTest before, WeightTest after) = Samples.Proof();
        proof.CaseProofs[0].PromisedN = new ForceBand();
        proof.CaseProofs[0].PromisedSavedN = null;

        XElement[] cells = [.. Page(proof, before, after).Descendants().Where(e => e.Name.LocalName == "td")];
        Assert.Contains(cells, cell => (string?)cell.Attribute("data-heading") == "Promised" && cell.Value == "locks");
    }

    [Fact]
    public void An_answer_with_nothing_in_it_is_a_page_all_the_same()
    {
        var test = new WeightTest { Installation = new Installation() };

        XElement page = Page(new VerifyCableResponse(), test, test);

        Assert.Empty(Pictures(page));
    }

    private static XElement Page() => Samples.Proof() is var (proof, before, after) ? Page(proof, before, after) : null!;

    private static XElement Page(VerifyCableResponse proof, WeightTest before, WeightTest after) =>
        Read(ProofReport.Html(proof, before, after, Us));

    private static bool IsLimit(XElement element) => (string?)element.Attribute("class") == "limit";

    private static bool IsOf(string title, string what) => title.EndsWith(what, StringComparison.Ordinal);

    private static IEnumerable<string> Titles(XElement page) => Pictures(page).Select(Title);

    private static string Title(XElement picture) => picture.Elements().First().Value;

    private static int Brackets(XElement plot, string look) => plot.Descendants()
        .Where(element => (string?)element.Attribute("class") == look)
        .SelectMany(group => group.Elements())
        .Count(element => (string?)element.Attribute("class") == "bracket");
}
