using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using Triangular = MathNet.Numerics.Distributions.Triangular;

namespace CableCatalog.Catalog.Tests.Options;

/// <summary>Chances against a closed form where there is one, else against chance itself.</summary>
public class OddsTests
{
    private const int Drawn = 40_000;

    // Four standard errors of a chance from so many draws (0.01), and what even ranks of three unknowns may be off.
    private const double NearChance = 0.025;

    /// <summary>With only the grade's friction uncertain the chance has a closed form: the triangular chance of the friction that gives the
    /// limit, ln(F_in/F_out)/(theta + phi L) of EN 1992-1-1:2004 (5.45), by a statistics library.</summary>
    [Theory]
    [InlineData(28)]
    [InlineData(30)]
    [InlineData(34)]
    [InlineData(45)]
    public void With_one_unknown_the_chance_to_meet_the_limit_is_exact(double limitN)
    {
        Installation installation = InventedOptions.Exact(limitN);
        Chain chain = installation.Chain;
        double outN = (80 * 0.2 / 0.09 / 0.92) + 3;
        double inN = (limitN - 4) * 0.95 * 0.36 / 0.03;
        double angleRad = (3 * Math.PI / 2) + (0.05 * chain.Route.LengthM);
        double friction = Math.Log(inN / outN) / angleRad;
        Band plain = InventedControl.Plain.Grade.Bands.Friction;

        double chance = Of(InventedOptions.Study(installation), InventedControl.Plain).Sure.MeetChance!.Value;

        Assert.Equal(new Triangular(plain.Low, plain.High, plain.Likely).CumulativeDistribution(friction), chance, 1e-4);
    }

    [Fact]
    public void With_four_unknowns_the_chance_to_meet_the_limit_is_what_chance_gives()
    {
        Installation installation = InventedOptions.Vague(limitN: 45);
        OptionStudy study = InventedOptions.Study(installation);
        var drawn = new Draw(installation, 71);

        foreach (CatalogGrade grade in new[] { InventedControl.Plain, InventedControl.Smooth })
        {
            int met = 0;
            double savedN = 0;
            for (int i = 0; i < Drawn; i++)
            {
                drawn.Next();
                double effortN = drawn.EffortN(grade, drawn.Rank());
                met += effortN <= 45 ? 1 : 0;
                savedN += drawn.PresentN - effortN;
            }

            SureOf sure = Of(study, grade).Sure;
            Assert.Equal((double)met / Drawn, sure.MeetChance!.Value, NearChance);

            // A saving scatters over some 20 N here: four standard errors are 0.4 N.
            Assert.Equal(savedN / Drawn, sure.ExpectedSavedN!.Value, 0.6);
        }
    }

    // The present cable's own band is integrated like a new one's.
    [Theory]
    [InlineData(40)]
    [InlineData(55)]
    [InlineData(75)]
    public void The_chance_of_what_is_there_is_what_chance_gives(double limitN)
    {
        Installation installation = InventedOptions.Vague(limitN);
        var drawn = new Draw(installation, 73);
        int met = 0;
        for (int i = 0; i < Drawn; i++)
        {
            drawn.Next();
            met += drawn.PresentN <= limitN ? 1 : 0;
        }

        Assert.Equal((double)met / Drawn, InventedOptions.Study(installation).Sure[0]!.MeetChance!.Value, NearChance);
    }

    // Bands of no width that anybody could measure change a chance by nothing that anybody could see.
    [Fact]
    public void Doubt_of_next_to_nothing_changes_next_to_nothing()
    {
        Installation friction = InventedOptions.Exact(46) with
        {
            Present = new PresentCable(null, new Band(0.1, 0.2, 0.3), default, default, null, null),
        };
        Installation all = friction with
        {
            WobbleRadPerM = new Band(0.04999, 0.05, 0.05001),
            Loads = [InventedControl.Raise with { RangeN = new Band(79.995, 80, 80.005) }],
        };

        Assert.Equal(
            InventedOptions.Study(friction).Sure[0]!.MeetChance!.Value,
            InventedOptions.Study(all).Sure[0]!.MeetChance!.Value,
            1e-3);
    }

    [Fact]
    public void No_chance_passes_one()
    {
        Installation vague = InventedOptions.Vague(limitN: 1000);
        Installation measured = vague with
        {
            Present = new PresentCable(null, null, default, default, null, new MeasuredEffort(70, vague.Loads[0])),
            Loads = [vague.Loads[0] with { RangeN = new Band(0, 80, 300) }],
        };

        Assert.All(
            InventedOptions.Study(measured).Sure.OfType<SureOf>(), sure => Assert.InRange(sure.MeetChance!.Value, 0, 1));
    }

    [Fact]
    public void The_chance_that_the_dearer_saves_enough_more_is_what_chance_gives()
    {
        Installation installation = InventedOptions.Vague();
        OptionStudy study = InventedOptions.Study(installation);
        OptionParts plain = Of(study, InventedControl.Plain).Option.Parts;
        OptionParts smooth = Of(study, InventedControl.Smooth).Option.Parts;
        var odds = new OptionOdds(installation, study.Baseline, States.Of(installation, study.Baseline));

        // 140 more, at 7 for each newton.
        const double EnoughN = 20;
        var drawn = new Draw(installation, 72);
        int more = 0;
        int enough = 0;
        for (int i = 0; i < Drawn; i++)
        {
            drawn.Next();
            double extraN = drawn.EffortN(InventedControl.Plain, drawn.Rank()) - drawn.EffortN(InventedControl.Smooth, drawn.Rank());
            more += extraN >= 0 ? 1 : 0;
            enough += extraN >= EnoughN ? 1 : 0;
        }

        Assert.Equal((double)more / Drawn, odds.ChanceToSaveMore(plain, smooth, 1e-6), NearChance);
        Assert.Equal((double)enough / Drawn, odds.ChanceToSaveMore(plain, smooth, EnoughN), NearChance);
        Assert.InRange((double)enough / Drawn, 0.05, 0.95);
    }

    // One grade along two routes rubs the same on both: with a bend less, it never takes more.
    [Fact]
    public void One_grade_on_two_routes_is_one_cable()
    {
        Installation installation = InventedOptions.Exact() with
        {
            Routes = Catalog.Routes.InstallationRoutes.None with { Others = [InventedOptions.Straighter(1)] },
        };
        OptionStudy study = InventedOptions.Study(installation, null, 0.8, InventedControl.Smooth);
        var odds = new OptionOdds(installation, study.Baseline, States.Of(installation, study.Baseline));
        OptionParts[] parts = [.. study.Options.Select(option => option.Parts).Where(one => one.Grade is not null)];

        Assert.Equal(1, odds.ChanceToSaveMore(parts[0], parts[1], 1e-6));
        Assert.Equal(0, odds.ChanceToSaveMore(parts[1], parts[0], 1e-6));

        // What saves just as much does not save more, whoever it is.
        Assert.All(study.Options, option => Assert.Equal(0, odds.ChanceToSaveMore(option.Parts, option.Parts, 1e-6)));
    }

    [Fact]
    public void An_effort_within_a_chance_is_met_with_that_chance()
    {
        Installation installation = InventedOptions.Vague();
        OptionStudy study = InventedOptions.Study(installation, confidence: 0.9);
        double withinN = Of(study, InventedControl.Smooth).Sure.EffortWithinN!.Value;

        OptionStudy there = InventedOptions.Study(InventedOptions.Vague(withinN), confidence: 0.9);

        Assert.Equal(0.9, Of(there, InventedControl.Smooth).Sure.MeetChance!.Value, 0.01);
    }

    // Whatever the wobble and the load are, the chain gives what was measured.
    [Fact]
    public void A_measured_effort_holds_in_every_state()
    {
        Installation vague = InventedOptions.Vague();
        Installation installation = vague with
        {
            Present = new PresentCable(null, null, default, default, null, new MeasuredEffort(70, vague.Loads[0])),
        };

        IReadOnlyList<State> states = States.Of(installation, Baseline.Of(installation, null));

        Assert.Equal(256, states.Count);
        Assert.All(states, state => Assert.Equal(70, state.Setting.WorstN(state.Present), 1e-6));
        Assert.Equal(1, states.Sum(state => state.Chance), 1e-12);
    }

    [Fact]
    public void Where_everything_is_exact_there_is_one_state_and_nothing_to_measure()
    {
        Installation installation = InventedOptions.Exact();
        IReadOnlyList<State> states = States.Of(installation, Baseline.Of(installation, null));

        Assert.Single(states);
        Assert.Empty(States.Questions(states, isDiagnosed: false));
        Assert.Empty(InventedOptions.Study(installation, 3m).Advice!.Answers);
    }

    [Fact]
    public void After_a_weight_test_the_states_are_the_chains_that_it_leaves()
    {
        var diagnosis = Mechanics.Diagnoses.Diagnosis.Of(
            Catalog.WeightTests.Describing.Of(InventedControl.Installation, InventedControl.Plain),
            InventedControl.Tested(InventedControl.Real(0.3)),
            2048);
        var baseline = Baseline.Of(InventedControl.Installation, InventedControl.Plain, diagnosis);

        IReadOnlyList<State> states = States.Of(InventedControl.Installation, baseline);

        Assert.Equal(64, states.Count);
        Assert.Equal(1, states.Sum(state => state.Chance), 1e-12);
        Assert.Equal(Unknown.WhatIsAtFault, Assert.Single(States.Questions(states, isDiagnosed: true)).What);

        // They stand for all chains that are possible: as much effort is above as below.
        double[] effortsN = [.. states.Select(state => state.Setting.WorstN(state.Present)).Order()];
        Assert.Equal(diagnosis.EffortN(InventedControl.Raise)!.Value.Quantiles!.Value.Median, effortsN[32], 1.0);

        // What was read of the whole chain holds in each of them: within a reading's step and the 2 % that a diagnosis allows.
        double realN = InventedControl.Real(0.3).Tested(
            new Mechanics.WeightTests.SetUp.WholeChain(InventedControl.Raise), [0], InventedControl.StepN).Series.Readings[0].MovedN!.Value;
        Assert.All(states, state => Assert.InRange(state.Setting.WorstN(state.Present), (realN * 0.96) - 8, (realN * 1.04) + 8));
    }

    private static (WeighedOption Option, SureOf Sure) Of(OptionStudy study, CatalogGrade grade)
    {
        (int index, WeighedOption option) = study.Options.Index().Single(o =>
            o.Item.Parts is { Route.IsPresent: true, Changes.Count: 0 } && o.Item.Parts.Grade == grade);
        return (option, study.Sure[index]!);
    }

    /// <summary>Draws what is not known by chance, seeded, with a statistics library's distribution.</summary>
    private sealed class Draw(Installation installation, int seed)
    {
        private readonly Random _random = new(seed);
        private double _wobble;
        private LoadCase _load = installation.Loads[0];

        public double PresentN { get; private set; }

        public double Rank() => _random.NextDouble();

        public void Next()
        {
            _wobble = At(installation.WobbleRadPerM, Rank());
            _load = _load with { ForceN = At(installation.Loads[0].RangeN!.Value, Rank()) };
            PresentN = EffortN(At(installation.Present.Friction!.Value, Rank()));
        }

        public double EffortN(CatalogGrade grade, double rank) => EffortN(At(grade.Grade.Bands.Friction, rank));

        private double EffortN(double friction) =>
            Effort.AtGripN(installation.Chain, new CableCoefficients(friction, _wobble, 0, 0, null), _load);

        private static double At(Band band, double rank) => Triangular.InvCDF(band.Low, band.High, band.Likely, rank);
    }
}
