using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Output;

/// <summary>What was really saved, and what each pound of it cost. A price per newton times 4.4482 N is one per pound-force (NIST
/// Special Publication 811 (2008), appendix B.8).</summary>
public sealed class SavedLinesTests
{
    [Fact]
    public void A_saving_known_at_both_ends_has_a_middle_and_bounds() => Assert.Equal(
        [
            "Really saved in the worst load case: 15.5 lbf (11.0 to 20.0).",
            // 3.4, 2.6 and 4.7 USD times 4.4482.
            "Cost: 231.40 USD (paid); 15.12 USD per lbf really saved (11.57 to 20.91).",
        ],
        SavedLines.Of(Invented.Proof(), Invented.Us));

    [Fact]
    public void In_si_units_it_is_a_price_per_newton() => Assert.Contains(
        "3.40 USD per N really saved (2.60 to 4.70)", Lines(Invented.Proof(), Invented.Si), StringComparison.Ordinal);

    [Fact]
    public void A_price_that_nobody_is_known_to_have_paid_is_called_that_of_the_catalogue()
    {
        VerifyCableResponse proof = Invented.Proof();
        proof.CostWasPaid = false;

        Assert.Contains("catalogue price", Lines(proof, Invented.Us), StringComparison.Ordinal);
    }

    [Fact]
    public void What_may_have_saved_nothing_has_no_upper_bound_of_cost()
    {
        VerifyCableResponse proof = Invented.Proof();
        proof.SavedN = Invented.Forces(-2, 8);
        proof.MostCostPerNewtonSaved = null;

        string lines = Lines(proof, Invented.Us);

        Assert.Contains("3.0 lbf (-2.0 to 8.0); below 0 it takes more than before.", lines, StringComparison.Ordinal);
        Assert.Contains("15.12 USD per lbf really saved (at least 11.57, no upper bound).", lines, StringComparison.Ordinal);
    }

    [Fact]
    public void What_saved_nothing_has_no_cost_for_each_pound()
    {
        VerifyCableResponse proof = WithoutCostPerForce();
        proof.SavedN = Invented.Forces(-4, 0);

        Assert.Contains(
            "nothing was saved, so no USD per lbf really saved.", Lines(proof, Invented.Us), StringComparison.Ordinal);
    }

    [Fact]
    public void A_saving_without_an_upper_bound_has_a_most_cost_only()
    {
        VerifyCableResponse proof = Invented.Proof();
        proof.SavedN = Invented.Forces(11, null);
        proof.LeastCostPerNewtonSaved = null;
        proof.MiddleCostPerNewtonSaved = null;

        string lines = Lines(proof, Invented.Us);

        Assert.Contains("at least 11.0 lbf, no upper bound.", lines, StringComparison.Ordinal);
        Assert.Contains("at most 20.91 USD per lbf really saved.", lines, StringComparison.Ordinal);
    }

    [Fact]
    public void A_saving_that_is_not_known_is_not_priced()
    {
        VerifyCableResponse proof = WithoutCostPerForce();
        proof.SavedN = null;

        string lines = Lines(proof, Invented.Us);

        Assert.Contains("the readings do not say.", lines, StringComparison.Ordinal);
        Assert.Contains("the readings do not say how many USD per lbf really saved.", lines, StringComparison.Ordinal);
    }

    private static VerifyCableResponse WithoutCostPerForce()
    {
        VerifyCableResponse proof = Invented.Proof();
        proof.LeastCostPerNewtonSaved = null;
        proof.MiddleCostPerNewtonSaved = null;
        proof.MostCostPerNewtonSaved = null;
        return proof;
    }

    private static string Lines(VerifyCableResponse proof, Figures figures) => string.Join('\n', SavedLines.Of(proof, figures));
}
