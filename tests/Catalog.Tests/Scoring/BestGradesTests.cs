using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Tests.Support;

namespace CableCatalog.Catalog.Tests.Scoring;

/// <summary>The best of a catalogue are those that scoring every grade, one by one, puts first: to the last bit.</summary>
public class BestGradesTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 20)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void The_best_are_those_that_scoring_all_puts_first(int seed)
    {
        var random = new Random(seed);
        for (int i = 0; i < 10; i++)
        {
            CatalogSnapshot catalog = ManyGrades.Catalogue(random.Next(1, 60), random.Next(), random.Next(3) / 2.0);
            HoldsFor(random, Drawn(random, catalog), catalog);
        }
    }

    [Fact]
    public void The_best_of_many_blocks_are_those_that_scoring_all_puts_first()
    {
        var random = new Random(1);
        CatalogSnapshot catalog = ManyGrades.Catalogue(2500, 1, 0.5);
        for (int i = 0; i < 4; i++)
        {
            HoldsFor(random, Drawn(random, catalog), catalog);
        }
    }

    // Every grade is there many times, under other names.
    [Fact]
    public void Equals_stand_in_order_of_id_on_every_page()
    {
        var random = new Random(2);
        CatalogGrade[] few = [.. ManyGrades.Catalogue(6, 3, 0.5).Grades];
        var catalog = CatalogSnapshot.Of(
            1, Enumerable.Range(0, 120).Select(i => few[i % 6] with { Grade = few[i % 6].Grade with { Id = $"g{i:000}" } }));
        for (int i = 0; i < 20; i++)
        {
            HoldsFor(random, Drawn(random, catalog), catalog);
        }
    }

    // The present cable locks. Of none of the grades is it known whether it does, and none meets the limit.
    [Fact]
    public void Where_the_present_cable_must_go_the_one_of_least_effort_is_bought_though_none_is_known_not_to_lock()
    {
        var random = new Random(8);
        for (int i = 0; i < 20; i++)
        {
            CatalogSnapshot catalog = ManyGrades.Catalogue(30, random.Next(), 0);
            Installation installation = Drawn(random, catalog) with
            {
                Loads = [new LoadCase("lower", Direction.Push, 60)],
                Present = new PresentCable(null, Band.Exactly(0.5), default, default, new Core(1e-3, 0.005), null),
                EffortLimitN = i % 2 == 0 ? 1 : null,
            };
            Assert.False(Baseline.Of(installation, null).IsFitToStay);
            HoldsFor(random, installation, catalog);
        }
    }

    // No friction, no load, nothing that bends: efforts and prices are all the same.
    [Fact]
    public void What_is_all_the_same_stands_in_order_of_id()
    {
        var random = new Random(9);
        CatalogGrade one = ManyGrades.Catalogue(1, 3, 1).Grades.Single();
        var catalog = CatalogSnapshot.Of(1, Enumerable.Range(0, 40).Select(i => one with
        {
            Grade = one.Grade with
            {
                Id = $"g{i:00}",
                Bands = new CableBands(Band.Exactly(i % 2 == 0 ? 0 : 0.1), default, default, i % 3 == 0 ? null : one.Grade.Bands.Core),
            },
        }));
        Installation drawn = Drawn(random, catalog);
        HoldsFor(random, drawn with
        {
            Chain = drawn.Chain with { Route = new CableRoute([new Straight(100)]) },
            WobbleRadPerM = new Band(0, 0.5, 1),
            EndAllowanceM = 0,
            Loads = [new LoadCase("raise", Direction.Pull, 0), new LoadCase("lower", Direction.Push, 0)],
            EffortLimitN = drawn.Chain.Helm.FrictionN,
        }, catalog);
    }

    // Rated for just what each carries, limited to just what it takes, saving just nothing.
    [Fact]
    public void What_is_just_at_an_edge_is_judged_as_if_it_were_scored_alone()
    {
        var random = new Random(4);
        for (int i = 0; i < 40; i++)
        {
            CatalogSnapshot drawn = ManyGrades.Catalogue(12, random.Next(), 0.5);
            Installation installation = Drawn(random, drawn) with { Loads = [new LoadCase("raise", Direction.Pull, 60)] };
            var baseline = Baseline.Of(installation, null);
            GradeScore[] scores = [.. drawn.Grades.Select(grade => GradeScore.Of(installation, baseline, grade))];
            var catalog = CatalogSnapshot.Of(1, scores.Select((score, at) => score.Grade with
            {
                Grade = score.Grade.Grade with
                {
                    Ratings = score.Grade.Grade.Ratings with
                    {
                        RatedPullN = Beside(score.Cases[0].CoreForceN.LikelyN, (at % 3) - 1),
                    },
                },
            }));
            HoldsFor(random, installation with { EffortLimitN = scores[i % 12].WorstEffortN.LikelyN }, catalog);
        }

        static double Beside(double figure, int bits) =>
            bits < 0 ? Math.BitDecrement(figure) : bits > 0 ? Math.BitIncrement(figure) : figure;
    }

    // A worn liner, a sound cable, a stiff helm; each seen in weight tests, with bends that may be hidden.
    [Theory]
    [InlineData(0.35, 4)]
    [InlineData(0.18, 4)]
    [InlineData(0.18, 40)]
    public void After_a_weight_test_too(double friction, double helmFrictionN)
    {
        var random = new Random(10);
        Diagnosis diagnosis = Diagnosis.Of(
            Describing.Of(InventedControl.Installation, InventedControl.Plain),
            InventedControl.Tested(InventedControl.Real(friction, helmFrictionN)),
            mostDrawn: 16384);
        for (int i = 0; i < 4; i++)
        {
            CatalogSnapshot drawn = ManyGrades.Catalogue(60, random.Next(), 0.5);
            CatalogSnapshot catalog = CatalogSnapshot.Of(1, [.. drawn.Grades, InventedControl.Plain]);
            Installation installation = InventedControl.Installation with { EffortLimitN = i % 2 == 0 ? null : 60 };
            HoldsFor(random, installation, catalog, diagnosis);
        }
    }

    private static void HoldsFor(Random random, Installation installation, CatalogSnapshot catalog, Diagnosis? diagnosis = null)
    {
        CatalogGrade? present = installation.Present.GradeId is { } id ? catalog.Find(id) : null;
        var baseline = Baseline.Of(installation, present, diagnosis);
        GradeScore[] scores = [.. catalog.Grades.Select(grade => GradeScore.Of(installation, baseline, grade))];
        BestBuy bestBuy = baseline.Basis == BaselineBasis.Unexplained
            ? new BestBuy(BuyVerdict.DiagnoseFirst, null)
            : BestBuy.Among(
                [.. scores.Where(score => score.Fits).Select(score => score.AsCandidate())],
                baseline.Limit,
                baseline.IsFitToStay,
                InstallationScore.BeforeBuyingOf(diagnosis));
        foreach (Ranking ranking in Enum.GetValues<Ranking>())
        {
            GradeScore[] all = [.. scores.OrderBy(score => RankKey.Of(score, ranking))];
            RankKey? after = null;
            int size = 1 + (all.Length / random.Next(1, 6));
            for (int from = 0; from < all.Length; from += size)
            {
                var page = InstallationScore.Of(installation, present, catalog, ranking, diagnosis, (size, after), default);
                GradeScore[] expected = [.. all.Skip(from).Take(size)];
                Assert.Equal(expected.Select(Figures), page.Scores.Select(Figures));
                Assert.Equal(from + size < all.Length, page.HasMore);
                Assert.Equal(bestBuy, page.BestBuy);
                Assert.Equal(bestBuy.Id, page.ToBuy?.Grade.Id);
                after = RankKey.Of(page.Scores[^1], ranking);
            }
        }
    }

    private static (string, bool, ForceBand, LimitVerdict, Saving?, decimal?) Figures(GradeScore score) =>
        (score.Grade.Id, score.Fits, score.WorstEffortN, score.Limit, score.Saving, score.Price?.Amount);

    private static Installation Drawn(Random random, CatalogSnapshot catalog)
    {
        var route = new CableRoute(Enumerable.Range(0, random.Next(1, 7)).Select<int, RouteElement>(i => i % 2 == 0
            ? new Straight(Between(0.2, 1.5))
            : new Bend(Between(0.3, 1.8), Between(0.18, 0.4), random.Next(2) == 0 ? null : Between(0, 6))));
        var chain = new Chain(
            new Helm(
                Between(0.25, 0.4),
                Between(0.03, 0.09),
                Between(0.85, 1),
                Between(0, 6),
                random.Next(2) == 0 ? null : CrankSweep.Centred(Between(0.5, 1.6))),
            route,
            [.. Enumerable.Range(0, random.Next(2)).Select(_ => new InlineDevice(
                "reducer", (CableEnd)random.Next(2), Between(0.7, 1.4), Between(0.8, 1), Between(0, 3)))],
            new Arm(Between(0.1, 0.25), Between(0.08, 0.12), Between(0.85, 1), Between(0, 5)));
        LoadCase[] loads =
        [
            .. Enumerable.Range(0, random.Next(1, 4)).Select(i =>
            {
                double forceN = Between(5, 160);
                return new LoadCase($"load {i}", (Direction)random.Next(2), forceN)
                {
                    Governs = i == 0 || random.Next(2) == 0,
                    RangeN = random.Next(3) == 0 ? new Band(forceN * 0.8, forceN, forceN * 1.3) : null,
                };
            }),
        ];
        double wobble = Between(0, 0.1);
        double friction = Between(0.05, 0.35);
        return new Installation(
            chain,
            new Band(wobble * 0.6, wobble, wobble * 1.4),
            0.2,
            loads,
            random.Next(3) switch
            {
                0 => new PresentCable(catalog.Grades.ElementAt(random.Next(catalog.Count)).Id, null, default, default, null, null),
                1 => new PresentCable(
                    null, null, default, default, null, new MeasuredEffort(Between(20, 250), loads[random.Next(loads.Length)])),
                _ => new PresentCable(
                    null,
                    new Band(friction * 0.8, friction, friction * 1.2),
                    Band.Exactly(1),
                    Band.Exactly(0.5),
                    random.Next(2) == 0 ? null : new Core(0.15, 1e-3),
                    null),
            },
            random.Next(2) == 0 ? null : Between(20, 150),
            []);

        double Between(double least, double most) => least + (random.NextDouble() * (most - least));
    }
}
