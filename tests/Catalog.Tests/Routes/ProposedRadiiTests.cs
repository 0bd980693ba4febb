using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Tests.Routes;

public sealed class ProposedRadiiTests
{
    [Fact]
    public void Every_radius_is_proposed_for_once_the_widest_first() => Assert.Equal(
        [0.25, 0.2, 0.1], ProposedRadii.Of([With(0.2, 0.1), With(0.1, 0.1), With(0.25, 0.1), With(0.2, 0.3)]));

    [Fact]
    public void Of_many_radii_twelve_are_picked_the_widest_among_them_and_evenly()
    {
        IReadOnlyList<double> picked = ProposedRadii.Of(Enumerable.Range(1, 30).Select(i => With(i * 0.01, 0.1)));
        Assert.Equal(12, picked.Count);
        Assert.Equal(0.3, picked[0], 12);

        // By hand: 30 radii over 12 picks are 2 or 3 each.
        Assert.All(picked.Zip(picked.Skip(1)), pair => Assert.InRange(pair.First - pair.Second, 0.0199, 0.0301));
    }

    [Fact]
    public void The_objective_is_the_effort_of_the_grade_of_middling_friction_that_may_be_bent_so_far()
    {
        Installation installation = InventedControl.Installation;
        Baseline baseline = Baseline.Of(installation, InventedControl.Plain);
        CatalogGrade middling = With(0.2, 0.12);
        Func<Mechanics.Routes.CableRoute, double> objective = ProposedRadii.Objective(
            baseline, [With(0.2, 0.2), With(0.1, 0.05), middling, With(0.3, 0.1)], 0.2);
        Assert.Equal(
            CaseEffort.Worst(baseline.With(middling.Grade.Bands, setting => setting).Efforts()).LikelyN,
            objective(installation.Chain.Route));
    }

    private static CatalogGrade With(double minBendRadiusM, double friction) => InventedControl.Smooth with
    {
        Grade = InventedControl.Smooth.Grade with
        {
            Bands = InventedControl.Smooth.Grade.Bands with { Friction = Band.Exactly(friction) },
            Ratings = InventedControl.Smooth.Grade.Ratings with { MinBendRadiusM = minBendRadiusM },
        },
    };
}
