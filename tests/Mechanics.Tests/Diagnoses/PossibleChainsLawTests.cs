using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using static CableCatalog.Mechanics.Tests.Support.Units;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>What is possible before and after any reading.</summary>
public class PossibleChainsLawTests
{
    // Fewer than by default: the laws do not depend on it.
    private const int MostDrawn = 4096;

    private const double Rounding = 1e-9;

    [Fact]
    public void What_is_truly_at_fault_is_hardly_ever_ruled_out()
    {
        int ruledOut = 0;
        Law.Holds(TestedChains.FaultyPulled, 541, 60, one =>
        {
            Diagnosis diagnosis = Of(one, one.Whole, one.Tested(one.SetUps[1]), one.Tested(one.SetUps[2]));
            ruledOut += diagnosis.Suspects.Single(s => s.Fault == one.Fault!.Fault).Probability > 0 ? 0 : 1;
        });

        // A fault may be ruled out only where it is so slight that a sound part would do as well: an efficiency of 0.8 where 0.85 is
        // described, say. Found by running it.
        Assert.InRange(ruledOut, 0, 3);
    }

    [Fact]
    public void A_sound_chain_is_never_found_impossible() => Law.Holds(TestedChains.SoundPulled, 542, 30, one =>
        Assert.True(Of(one, one.Whole, one.Tested(one.SetUps[1]), one.Tested(one.SetUps[2])).NothingAtFault > 0));

    // 0.4 that nothing is at fault, 0.5 that one thing is, so 0.1 that two are and each counts: as assumed, see Prior.
    [Fact]
    public void Before_any_reading_everything_is_as_likely_as_was_assumed() =>
        Assert.All(InventedChains.All, chain =>
        {
            Diagnosis diagnosis = Diagnosis.Of(chain.Described, [], MostDrawn);
            Assert.Equal(0.4, diagnosis.NothingAtFault!.Value, Rounding);
            Assert.Equal(0.7, diagnosis.Suspects.Sum(s => s.PriorProbability), Rounding);
            Assert.All(diagnosis.Suspects, s => Assert.Equal(s.PriorProbability, s.Probability!.Value, Rounding));
        });

    // Nothing, one or two things: the sum counts two things twice.
    [Fact]
    public void Probabilities_add_up() => Law.Holds(TestedChains.FaultyPulled, 543, 25, one =>
    {
        Diagnosis diagnosis = Of(one, one.Whole);
        if (diagnosis.NothingAtFault is { } nothing)
        {
            double sum = nothing + diagnosis.Suspects.Sum(s => s.Probability!.Value);
            Assert.InRange(sum, 1 - Rounding, 2 - nothing + Rounding);
            Assert.All(diagnosis.Suspects, s => Assert.InRange(s.Probability!.Value, 0, 1 + Rounding));
        }
    });

    [Fact]
    public void Readings_that_any_chain_gives_change_nothing() => Law.Holds(TestedChains.FaultyPulled, 544, 15, one =>
    {
        Diagnosis without = Of(one, one.Whole);
        TestedSeries[] loose =
        [
            .. one.SetUps.Select(setUp => new TestedSeries(
                setUp, new WeightSeries([new WeightReading(50, 0, 90_000), new WeightReading(100, 0, null)], 0))),
        ];
        AssertSame(without, Of(one, [one.Whole, .. loose]));
    });

    [Fact]
    public void The_order_of_the_readings_does_not_matter() => Law.Holds(TestedChains.FaultyPulled, 546, 15, one =>
    {
        TestedSeries series = one.Whole;
        var reversed = series with { Series = new WeightSeries(series.Series.Readings.Reverse(), 0) };
        AssertSame(Of(one, series), Of(one, reversed));
    });

    [Fact]
    public void A_diagnosis_is_the_same_on_every_run_and_on_any_thread()
    {
        TestedChain[] chains = new TestedChain[6];
        int count = 0;
        Law.Holds(TestedChains.Faulty, 547, chains.Length, one => chains[count++] = one);
        string[] once = [.. chains.Select(Written)];
        string[] again = new string[chains.Length];
        Parallel.For(0, chains.Length, i => again[i] = Written(chains[i]));
        Assert.Equal(once, again);
    }

    // Levers alone, by hand: 7 in over 4 in at the arm, a force ratio of 1.5, 3 in over 16 in at the helm: 0.4921875 at the grip for
    // each at the load. Of a load of 25 lbf that is 12.30 lbf, and of one between 0.9 and 3 times that, 11.07 to 36.9 lbf.
    [Fact]
    public void What_levers_make_of_the_load_is_no_friction()
    {
        PartShare useful = Diagnosis.Of(InventedChains.DeviceAtHelm, [], MostDrawn).PartShares()[0];
        Assert.Equal(ChainPart.UsefulLoad, useful.Part);
        Assert.Equal(0.4921875, useful.Slope.Least, 1e-9);
        Assert.Equal(0.4921875, useful.Slope.Most!.Value, 1e-9);
        Assert.InRange(useful.BaselineN.Least / NewtonsPerLbf, 11.07, 11.2);
        Assert.InRange(useful.BaselineN.Most!.Value / NewtonsPerLbf, 35, 36.92);
    }

    // What is drawn is spread as was assumed: worn friction from where a sound one ends, 0.15, to 5 times 0.11, any ratio as likely as any
    // other, so a share p of it lies below 0.15 (0.55/0.15)^p. To one in a hundred: as many points by chance would be off by twice that.
    [Fact]
    public void Draws_are_spread_as_evenly_as_was_assumed()
    {
        Diagnosis diagnosis = Diagnosis.Of(InventedChains.DeviceAtArm, [], MostDrawn);
        (double at05, double median, double at95) =
            diagnosis.Suspects.Single(s => s.Fault.Kind == FaultKind.Liner).Needed!.Value.Quantiles!.Value;
        Assert.Equal(0.05, ShareBelow(at05), 0.01);
        Assert.Equal(0.5, ShareBelow(median), 0.01);
        Assert.Equal(0.95, ShareBelow(at95), 0.01);

        static double ShareBelow(double friction) => Math.Log(friction / 0.15) / Math.Log(0.55 / 0.15);
    }

    // Nothing lies between sound and at fault: a cable 1.32 times as stiff as one stated without a band, or a helm that loses 2.2 times
    // what is described, is explained by the part that is so.
    [Theory]
    [InlineData(FaultKind.Liner)]
    [InlineData(FaultKind.Helm)]
    public void A_part_that_is_a_little_worse_than_sound_is_explained(FaultKind kind)
    {
        DescribedChain described = InventedChains.NoDevice with
        {
            Cable = InventedChains.NoDevice.Cable with { Friction = new Band(0.1, 0.1, 0.1) },
        };
        SimulatedChain sound = ChainDraw.Sound(described, new Random(3));
        SimulatedChain truth = kind == FaultKind.Liner
            ? sound with { Cable = sound.Cable with { Friction = 0.132 } }
            : ChainDraw.WithEfficiency(sound, kind, 1 - (2.2 * (1 - described.Chain.Helm.Efficiency)));
        SetUp alone = kind == FaultKind.Liner
            ? new SetUp.CableAlone(described.Loads[0].Direction, new Coil(described.MinBendRadiusM!.Value, 2 * Math.PI))
            : new SetUp.HelmAlone();
        double[] hungN = [0, 100, 200, 300];
        Diagnosis diagnosis = Diagnosis.Of(
            described,
            [truth.Tested(new SetUp.WholeChain(described.Loads[0]), hungN, NewtonsPerLbf), truth.Tested(alone, hungN, NewtonsPerLbf / 4)],
            MostDrawn);
        Assert.Equal(kind, diagnosis.Suspects[0].Fault.Kind);
        Assert.True(diagnosis.NothingAtFault < 0.1, $"{diagnosis.NothingAtFault}");
    }

    // An efficiency of 0.6 is described: a sound one has 0.4 at least, so one at fault has less, and adds to the effort.
    [Fact]
    public void A_mechanism_at_fault_is_worse_than_a_sound_one()
    {
        Chain poor = InventedChains.NoDevice.Chain with { Arm = InventedChains.NoDevice.Chain.Arm with { Efficiency = 0.6 } };
        Suspect arm = Diagnosis.Of(InventedChains.NoDevice with { Chain = poor }, [], MostDrawn)
            .Suspects.Single(s => s.Fault.Kind == FaultKind.Arm);
        Assert.InRange(arm.Needed!.Value.Most!.Value, 0.39, 0.4);
    }

    [Fact]
    public void A_sound_chain_takes_what_a_sound_chain_may() => Law.Holds(TestedChains.Sound, 549, 1000, one =>
        Assert.All(one.SetUps, setUp => Assert.All(new[] { 0, 12.3, 100 }, hungN =>
        {
            ForceBand band = SoundChain.ForceN(one.Described, setUp, hungN);
            double forceN = one.Truth.ForceN(setUp, hungN);
            Assert.True(
                forceN >= band.LowN * (1 - Rounding) && forceN <= band.HighN * (1 + Rounding),
                $"{setUp}: {forceN} outside {band}");
        })));

    private static Diagnosis Of(TestedChain one, params TestedSeries[] series) => Diagnosis.Of(one.Described, series, MostDrawn);

    private static void AssertSame(Diagnosis expected, Diagnosis actual)
    {
        Assert.Equal(expected.PossibleCount, actual.PossibleCount);
        Assert.Equal(expected.NothingAtFault, actual.NothingAtFault);
        Assert.Equal(expected.Suspects, actual.Suspects);
    }

    // Round-trip figures: the same text is the same bits.
    private static string Written(TestedChain one)
    {
        Diagnosis diagnosis = Of(one, one.Whole);
        return string.Join('\n',
        [
            FormattableString.Invariant($"{diagnosis.NothingAtFault:R} {diagnosis.PossibleCount} {diagnosis.ConsideredCount}"),
            .. diagnosis.Suspects.Select(s => s.ToString()),
            .. diagnosis.PartShares().Select(s => s.ToString()),
            .. diagnosis.NextTests(TestedChain.StepN).Select(t =>
                $"{t} {string.Join(' ', t.HangN)} {string.Join(' ', t.Outcomes)}"),
        ]);
    }
}
