using CableCatalog.Economics.Frontiers;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Frontiers;

public class FrontierTests
{
    // Few values, so that ties and straight lines are frequent; small whole numbers, so that every product is exact.
    private static readonly Gen<CostEffect[]> Crowded =
        Gen.Select(Gen.Int[0, 12], Gen.Int[-2, 12], (cost, effect) => new CostEffect(cost, effect)).Array[1, 14];

    private static readonly Gen<CostEffect[]> Spread =
        Gen.Select(Gen.Decimal[0, 1000], Gen.Double[-50, 200], (cost, effect) => new CostEffect(cost, effect)).Array[1, 40];

    // Published: Australia and New Zealand Health Policy 2005, 2:10, table 7. Costs in dollars, effects in life years.
    [Fact]
    public void A_published_frontier_has_its_published_ratios()
    {
        CostEffect[] options =
        [
            new(0, 0), new(140_117_791, 3551), new(248_112_291, 6023), new(304_301_903, 6720), new(370_181_240, 7076),
            new(422_777_702, 7299),
        ];
        double[] published = [39459, 43687, 80616, 185054, 235859];

        var frontier = Frontier.Of(options);

        Assert.Equal([0, 1, 2, 3, 4, 5], frontier.Corners);

        // The table has whole life years, so its last digit is not to be had from it: within 0.002 %.
        Assert.All(frontier.Steps.Zip(published), pair => Assert.Equal(1, pair.First.Ratio / pair.Second, 2e-5));
    }

    // By hand: b costs more than a and does less; c lies on no straight line above a to d: at its 60 a mix of a and d does 4.
    [Fact]
    public void What_is_beaten_says_by_whom()
    {
        var frontier = Frontier.Of([new(20, 2), new(30, 1), new(60, 3), new(100, 6)]);

        Assert.Equal([0, 3], frontier.Corners);
        Assert.Equal(new FrontierPlace(FrontierStanding.Dominated, 0, null), frontier.Places[1]);
        Assert.Equal(new FrontierPlace(FrontierStanding.ExtendedlyDominated, 0, 3), frontier.Places[2]);
        Assert.Equal(new FrontierStep(0, 3, 80, 4), Assert.Single(frontier.Steps));
        Assert.Equal(20, frontier.Steps[0].Ratio);
    }

    // An option that costs more and does less than one that a mix beats is beaten by that one outright.
    [Fact]
    public void What_is_dominated_need_not_be_so_by_a_corner() => Assert.Equal(
        new FrontierPlace(FrontierStanding.Dominated, 1, null),
        Frontier.Of([new(0, 0), new(60, 3), new(100, 9), new(65, 2)]).Places[3]);

    [Fact]
    public void Of_options_alike_the_first_stands_for_all()
    {
        var frontier = Frontier.Of([new(5, 5), new(5, 5), new(0, 0)]);

        Assert.Equal([2, 0], frontier.Corners);
        Assert.Equal(new FrontierPlace(FrontierStanding.Dominated, 0, null), frontier.Places[1]);
    }

    [Fact]
    public void An_effect_that_is_not_finite_is_refused() => Assert.All(
        [double.NaN, double.PositiveInfinity],
        effect => Assert.Throws<ArgumentException>(() => Frontier.Of([new(1, effect)])));

    [Fact]
    public void Nothing_has_an_empty_frontier() => Assert.Empty(Frontier.Of([]).Corners);

    /// <summary>Brute force: an option is on the frontier exactly when some value of a unit of effect makes it the best alone, those just
    /// like it apart.</summary>
    [Fact]
    public void On_the_frontier_is_exactly_what_some_value_makes_best_alone()
    {
        Law.Holds(Crowded, 50, 4000, Check);
        Law.Holds(Spread, 51, 400, Check);

        static void Check(CostEffect[] options)
        {
            var frontier = Frontier.Of(options);
            double[] values = ValuesToTry(options);
            for (int i = 0; i < options.Length; i++)
            {
                CostEffect one = options[i];
                bool isFirst = Array.IndexOf(options, one) == i;
                bool bestAlone = isFirst && values.Any(value => options.All(other =>
                    other == one || Benefit(one, value) > Benefit(other, value)));
                Assert.Equal(bestAlone, frontier.Places[i].Standing == FrontierStanding.OnFrontier);
            }
        }
    }

    [Fact]
    public void Extra_cost_for_each_extra_unit_rises_from_step_to_step() => Law.Holds(Spread, 52, 1000, options =>
    {
        var frontier = Frontier.Of(options);
        Assert.All(
            frontier.Steps.Zip(frontier.Steps.Skip(1)), pair => Assert.True(pair.First.Ratio < pair.Second.Ratio));
        Assert.All(frontier.Steps, step => Assert.True(step.ExtraCost >= 0 && step.ExtraEffect > 0));
    });

    [Fact]
    public void What_is_beaten_is_so_by_those_named() => Law.Holds(Crowded, 53, 3000, options =>
    {
        var frontier = Frontier.Of(options);
        foreach ((CostEffect option, FrontierPlace place) in options.Zip(frontier.Places))
        {
            switch (place.Standing)
            {
                case FrontierStanding.Dominated:
                    Assert.True(options[place.By!.Value].Cost <= option.Cost && options[place.By.Value].Effect >= option.Effect);
                    break;
                case FrontierStanding.ExtendedlyDominated:
                    CostEffect cheap = options[place.By!.Value];
                    CostEffect dear = options[place.AndBy!.Value];
                    double share = (double)(option.Cost - cheap.Cost) / (double)(dear.Cost - cheap.Cost);
                    Assert.InRange(share, 0, 1);
                    Assert.True(cheap.Effect + (share * (dear.Effect - cheap.Effect)) >= option.Effect - 1e-12);
                    break;
            }
        }
    });

    // Between two neighbouring values at which two options are as good as each other nothing changes: the values in the middle, one
    // below all and one above all.
    private static double[] ValuesToTry(CostEffect[] options)
    {
        double[] equal =
        [
            0,
            .. (from a in options
                from b in options
                where a.Effect > b.Effect && a.Cost > b.Cost
                select (double)(a.Cost - b.Cost) / (a.Effect - b.Effect)).Distinct().Order(),
        ];
        return [.. equal.Zip(equal.Skip(1), (low, high) => (low + high) / 2), equal[^1] + 1, equal[^1] + 1e7];
    }

    private static double Benefit(CostEffect option, double value) => (value * option.Effect) - (double)option.Cost;
}
