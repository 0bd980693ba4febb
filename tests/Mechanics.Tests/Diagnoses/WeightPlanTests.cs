using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;
using static CableCatalog.Mechanics.Tests.Support.Units;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

public class WeightPlanTests
{
    // 50 lbf at a grip: common practice, no source.
    private const double MostEffortN = 50 * NewtonsPerLbf;

    private const double StepN = 5 * NewtonsPerLbf;

    private static readonly Gen<(DescribedChain Described, LoadCase Load)> Chains = Gen.Select(
        Cases.Installed,
        Gen.Double[50, 800],
        Gen.OneOf(Direction.Pull, Direction.Push),
        (one, ratedN, direction) =>
        {
            CableCoefficients cable = one.Cable;
            LoadCase load = one.Load(direction, one.LoadN / 3);
            return (
                new DescribedChain(
                    one.Chain,
                    [load],
                    Around(cable.WobbleRadPerM),
                    new CableBands(
                        Around(cable.Friction), Around(cable.SealDragN), Around(cable.RunningDragNPerM), cable.Core),
                    null,
                    ratedN,
                    ratedN),
                load);
        });

    [Fact]
    public void Nothing_hung_passes_what_the_core_is_rated_for_or_locks_it_or_is_too_much_for_a_hand() =>
        Law.Holds(Chains, 571, 2000, one =>
        {
            (DescribedChain described, LoadCase load) = one;
            foreach (PlannedWeight weight in WeightPlan.Of(described, load, StepN).Weights.Where(w => w.AddedN > 0))
            {
                LoadCase loaded = load with { ForceN = load.ForceN + weight.AddedN };
                // As stiff as a sound one may be: see Prior.
                Arm arm = described.Chain.Arm;
                Chain stiff = described.Chain with
                {
                    InlineDevices = [.. described.Chain.InlineDevices.Select(d =>
                        d with { Efficiency = 1 - (1.5 * (1 - d.Efficiency)), DragN = 1.5 * d.DragN })],
                    Arm = arm with { Efficiency = 1 - (1.5 * (1 - arm.Efficiency)), FrictionN = 1.5 * arm.FrictionN },
                };
                double coreN = Effort.CoreForceN(
                    stiff, described.Cable.At(BandEnd.High, described.WobbleRadPerM.High), loaded);
                Assert.InRange(coreN, 0, described.RatedPullN!.Value);
                Assert.InRange(weight.PredictedN.LikelyN, 0, MostEffortN);
                Assert.InRange(weight.AddedN, StepN, MostEffortN);
            }
        });

    // The plan starts where it should hold: never above the least that is predicted.
    [Fact]
    public void The_first_weight_at_the_grip_is_below_what_is_predicted() => Law.Holds(Chains, 572, 1000, one =>
        Assert.All(WeightPlan.Of(one.Described, one.Load, StepN).Weights, weight =>
        {
            Assert.True(weight.StartWithN <= weight.PredictedN.LowN);

            // A step is left to what one person moves safely: 50 lbf (common practice, no source).
            Assert.True(weight.StartWithN + StepN <= WeightPlan.MostEffortN);
            Near.Relative(Math.Round(weight.StartWithN / StepN) * StepN, weight.StartWithN, 1e-12);
        }));

    [Fact]
    public void Nothing_hangs_first_and_then_the_heaviest() => Law.Holds(Chains, 573, 1000, one =>
    {
        double[] hungN = [.. WeightPlan.Of(one.Described, one.Load, StepN).Weights.Select(w => w.AddedN)];
        Assert.InRange(hungN.Length, 1, 5);
        Assert.Equal(0, hungN[0]);
        Assert.Equal(hungN.Max(), hungN[hungN.Length > 1 ? 1 : 0]);
        Assert.Equal(hungN.Length, hungN.Distinct().Count());
    });

    [Fact]
    public void It_predicts_what_the_chain_takes_where_all_is_likely() => Law.Holds(TestedChains.Sound, 574, 200, one =>
        Assert.All(WeightPlan.Of(one.Described, one.Load, StepN).Weights, weight =>
        {
            LoadCase loaded = one.Load with { ForceN = one.Load.ForceN + weight.AddedN };
            double likelyN = Effort.AtGripN(
                one.Described.Chain,
                one.Described.Cable.At(BandEnd.Likely, one.Described.WobbleRadPerM.Likely),
                loaded);
            Near.Relative(likelyN, weight.PredictedN.LikelyN, 1e-9);
            Assert.InRange(one.Truth.ForceN(one.SetUps[0], weight.AddedN), weight.PredictedN.LowN, weight.PredictedN.HighN);
        }));

    private static Band Around(double likely) => new(0.7 * likely, likely, 1.4 * likely);
}
