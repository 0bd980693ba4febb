using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests.Fits;

/// <summary>Every check at its limit, just inside and just outside. The installation is invented.</summary>
public class FitCheckTests
{
    private static readonly CableRoute Route = new(
        [new Straight(3), new Bend(Math.PI / 2, 0.25), new Straight(1), new Bend(1, 0.2), new Straight(2)]);

    private static readonly Chain Chain = new(
        new Helm(0.3, 0.1, 0.95, 4, CrankSweep.Centred(1)), Route, [], new Arm(0.2, 0.1, 0.9, 5));

    private static readonly Band Wobble = new(0.02, 0.05, 0.08);

    private static readonly CableBands Cable = new(
        new Band(0.08, 0.1, 0.15), new Band(1, 2, 3), new Band(0.5, 1, 1.5), new Core(0.05, 0.002));

    private static readonly CableRatings Ratings = new(
        0.1, new LengthsMade(1, 20, 0.5), 5000, 5000, 0.5, CoreConstruction.Stranded);

    private static readonly LoadCase Pull = new("in", Direction.Pull, 50);

    private static readonly LoadCase Push = new("out", Direction.Push, 10);

    [Fact]
    public void A_cable_that_breaks_no_limit_fits()
    {
        Fit fit = Check(Ratings);
        Assert.Empty(fit.Problems);
        Assert.Empty(fit.Notes);
        Assert.Equal(7, fit.OrderLengthM);
        Assert.False(fit.EffortIsLowerBound);
    }

    // The second bend, 0.2 m, is the tight one. A radius that differs by rounding alone passes.
    [Theory]
    [InlineData(0.2, false)]
    [InlineData(0.19999, false)]
    [InlineData(0.20000000000000004, false)]
    [InlineData(0.2000001, true)]
    public void A_bend_under_the_least_radius_does_not_fit(double leastRadiusM, bool tight)
    {
        Fit fit = Check(Ratings with { MinBendRadiusM = leastRadiusM });
        Assert.Equal(tight ? [new FitProblem.TightBend(2, 0.2, leastRadiusM)] : Array.Empty<FitProblem>(), fit.Problems);
        Assert.Equal(tight, fit.EffortIsLowerBound);
    }

    [Fact]
    public void Every_tight_bend_is_named()
    {
        Fit fit = Check(Ratings with { MinBendRadiusM = 0.3 });
        Assert.Equal([new FitProblem.TightBend(1, 0.25, 0.3), new FitProblem.TightBend(2, 0.2, 0.3)], fit.Problems);
    }

    [Theory]
    [InlineData(20, false)]
    [InlineData(19.999, false)]
    [InlineData(20.001, true)]
    public void A_cable_not_made_long_enough_does_not_fit(double neededM, bool tooLong)
    {
        Fit fit = Check(Ratings, neededM: neededM);
        Assert.Equal(tooLong ? [new FitProblem.LengthNotMade(neededM, 20)] : Array.Empty<FitProblem>(), fit.Problems);
        Assert.Equal(tooLong ? null : 20, fit.OrderLengthM);
    }

    // Made from 10 m in steps of 0.5 m: a slack of a step is in the nature of steps, more is worth a note.
    [Theory]
    [InlineData(9.5, false)]
    [InlineData(9.51, false)]
    [InlineData(9.49, true)]
    public void More_slack_than_a_step_is_noted(double neededM, bool noted)
    {
        Fit fit = Check(Ratings with { LengthsMade = new LengthsMade(10, 20, 0.5) }, neededM: neededM);
        Assert.Equal(10, fit.OrderLengthM);
        Assert.Equal(noted ? [new FitNote.LongerThanNeeded(10 - neededM)] : Array.Empty<FitNote>(), fit.Notes);
    }

    // 2 r sin(sigma/2) = 0.2 sin 0.5 m.
    [Theory]
    [InlineData(1, false)]
    [InlineData(1.000001, false)]
    [InlineData(0.999999, true)]
    public void A_cable_with_too_little_travel_does_not_fit(double share, bool tooShort)
    {
        double travelM = 0.2 * Math.Sin(0.5);
        Fit fit = Check(Ratings with { LongestTravelM = share * travelM });
        Assert.Equal(tooShort ? 1 : 0, fit.Problems.Count);
        if (tooShort)
        {
            var problem = Assert.IsType<FitProblem.TravelTooShort>(fit.Problems[0]);
            Near.Relative(travelM, problem.NeededM, 1e-14);
            Assert.Equal(share * travelM, problem.LongestM);
        }
    }

    // A core at exactly its rated load is within it. Beyond it at the likely values it does not fit; beyond it at the high end
    // only, that is noted. The reference integration gives both forces.
    [Theory]
    [InlineData(Direction.Pull)]
    [InlineData(Direction.Push)]
    public void A_core_beyond_its_rated_load_does_not_fit_and_one_that_may_be_is_noted(Direction direction)
    {
        LoadCase load = direction == Direction.Pull ? Pull : Push;
        double likelyN = Forces(Chain, [load], Cable, BandEnd.Likely).CoreN(0);
        double highN = Forces(Chain, [load], Cable, BandEnd.High).CoreN(0);
        Near.Relative(Reference(new CableCoefficients(0.1, 0.05, 2, 1, Cable.Core)), likelyN, 1e-9);
        Near.Relative(Reference(new CableCoefficients(0.15, 0.08, 3, 1.5, Cable.Core)), highN, 1e-9);

        double underLikelyN = Math.BitDecrement(likelyN);
        Assert.Equal(
            [new FitProblem.RatedLoadExceeded(load.Name, direction, likelyN, underLikelyN)], Check(Rated(underLikelyN)).Problems);
        Assert.Empty(Check(Rated(likelyN)).Problems);

        double underHighN = Math.BitDecrement(highN);
        Assert.Equal(
            [new FitNote.MayExceedRatedLoad(load.Name, direction, highN, underHighN)], Check(Rated(underHighN)).Notes);
        Assert.Empty(Check(Rated(underHighN)).Problems);
        Assert.Empty(Check(Rated(highN)).Notes);

        double Reference(CableCoefficients cable) =>
            ReferenceMarch.InputForceN(Route.Elements, cable, direction, (load.ForceN * 2 / 0.9) + 5);

        CableRatings Rated(double ratedN) =>
            direction == Direction.Pull ? Ratings with { RatedPullN = ratedN } : Ratings with { RatedPushN = ratedN };
    }

    // The load just under, and just over, the one at which the integration runs away.
    [Fact]
    public void A_core_that_locks_in_push_does_not_fit()
    {
        CableRatings unrated = Ratings with { RatedPushN = null };
        double lockUpN = Effort.LockUpLoadN(Chain, Cable.At(BandEnd.High, Wobble.High));
        Assert.True(double.IsFinite(Reference(lockUpN * (1 - 1e-6))) && double.IsInfinity(Reference(lockUpN * (1 + 1e-6))));
        LoadCase under = Push with { ForceN = lockUpN * (1 - 1e-9) };
        LoadCase over = Push with { ForceN = lockUpN * (1 + 1e-9) };
        Assert.Empty(Check(unrated, under).Problems);
        Assert.Equal([new FitProblem.LocksInPush("out", over.ForceN, lockUpN)], Check(unrated, over).Problems);
        Assert.Empty(Check(unrated, over with { Direction = Direction.Pull }).Problems);

        double Reference(double loadN) => ReferenceMarch.InputForceN(
            Route.Elements,
            new CableCoefficients(0.15, 0.08, 3, 1.5, Cable.Core),
            Direction.Push,
            (loadN * 2 / 0.9) + 5);
    }

    // A solid steel core of 3 mm: EI = E pi d^4/64 = 200e9 * pi * (3 mm)^4/64 = 0.7952 N m2, and d E/(2 sigma) = 0.003 *
    // 200e9/2e9 = 0.3 m (E and 1000 MPa from memory, typical of hard-drawn wire).
    [Theory]
    [InlineData(0.2999, true)]
    [InlineData(0.3001, false)]
    public void A_bend_that_would_set_a_solid_core_is_noted(double radiusM, bool sets)
    {
        double stiffness = 200e9 * Math.PI * Math.Pow(0.003, 4) / 64;
        Assert.Equal(0.8, stiffness, 0.01);
        Chain bent = Chain with { Route = new CableRoute([new Bend(1, 0.5), new Straight(1), new Bend(1, radiusM)]) };
        CableBands solid = Cable with { Core = new Core(stiffness, 0.001) };
        foreach (CoreConstruction construction in Enum.GetValues<CoreConstruction>())
        {
            Fit fit = FitCheck.Of(bent, [], 5, solid, Ratings with { CoreConstruction = construction });
            Assert.Empty(fit.Problems);
            Assert.Equal(sets && construction != CoreConstruction.Stranded ? 1 : 0, fit.Notes.Count);
            Assert.All(fit.Notes, note =>
            {
                var noted = Assert.IsType<FitNote.CoreWouldSet>(note);
                Assert.Equal((2, radiusM), (noted.BendNumber, noted.RadiusM));
                Near.Relative(0.3, noted.SetRadiusM, 1e-9);
            });
        }
    }

    // 0.8 N m2 sets under about 0.3 m.
    [Fact]
    public void A_core_of_0_8_sets_under_about_0_3_m()
    {
        CableBands solid = Cable with { Core = new Core(0.8, 0.001) };
        Fit fit = FitCheck.Of(Chain, [], 7, solid, Ratings with { CoreConstruction = CoreConstruction.Solid });
        Assert.Equal(2, fit.Notes.Count);
        Assert.All(fit.Notes, note => Assert.InRange(Assert.IsType<FitNote.CoreWouldSet>(note).SetRadiusM, 0.299, 0.302));
    }

    [Fact]
    public void What_could_not_be_checked_is_noted()
    {
        Assert.Equal(
            [
                new FitNote.NotChecked(FitCheckKind.Travel),
                new FitNote.NotChecked(FitCheckKind.RatedPull),
                new FitNote.NotChecked(FitCheckKind.RatedPush),
            ],
            Check(Ratings with { LongestTravelM = null, RatedPullN = null, RatedPushN = null }).Notes);
        Chain unswept = Chain with { Helm = Chain.Helm with { Sweep = null } };
        Assert.Equal(
            [
                new FitNote.NotChecked(FitCheckKind.Travel),
                new FitNote.NotChecked(FitCheckKind.LockUp),
                new FitNote.NotChecked(FitCheckKind.CoreStiffness),
            ],
            Check(unswept, [Pull, Push], Cable with { Core = null }, Ratings).Notes);
        Assert.Equal(
            [new FitNote.NotChecked(FitCheckKind.CoreStiffness)],
            Check(Chain, [Pull], Cable with { Core = null }, Ratings with { RatedPushN = null }).Notes);
        Chain straight = Chain with { Route = new CableRoute([new Straight(3)]) };
        Assert.Empty(Check(straight, [Pull], Cable with { Core = null }, Ratings).Notes);
        Assert.Equal(
            [new FitNote.NotChecked(FitCheckKind.Drags)],
            Check(Chain, [Pull], Cable with { SealDragN = default, RunningDragNPerM = default }, Ratings).Notes);
    }

    private static Fit Check(CableRatings ratings, LoadCase? push = null, double neededM = 7) =>
        Check(Chain, [Pull, push ?? Push], Cable, ratings, neededM);

    private static Fit Check(Chain chain, LoadCase[] loads, CableBands cable, CableRatings ratings, double neededM = 7)
    {
        return FitCheck.Of(chain, CaseEffort.OfAll([At(BandEnd.Low)], At(BandEnd.Likely), [At(BandEnd.High)]), neededM, cable, ratings);

        CoreForces At(BandEnd end) => Forces(chain, loads, cable, end);
    }

    private static CoreForces Forces(Chain chain, LoadCase[] loads, CableBands cable, BandEnd end) =>
        CoreForces.Of(new Setting(chain, loads, Wobble.At(end)), cable.At(end, Wobble.At(end)));
}
