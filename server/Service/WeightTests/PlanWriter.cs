using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes a plan for a first test.</summary>
internal static class PlanWriter
{
    /// <summary>Writes the series of one load case.</summary>
    public static V1.PlannedSeries Write(WeightPlan plan, DescribedChain described)
    {
        var written = new V1.PlannedSeries
        {
            LoadCase = plan.Load.Name,
            Direction = ScoreWriter.Write(plan.Load.Direction),
            Steps = { plan.Weights.Select(Write) },
            PredictedSlope = ScoreWriter.Write(plan.Slope),
            FrictionlessSlope = SoundChain.FrictionlessSlope(described, new SetUp.WholeChain(plan.Load)),
            HeaviestReason = plan.HeaviestReason switch
            {
                HeaviestReason.ShowsTheSlope => V1.HeaviestReason.ShowsTheSlope,
                HeaviestReason.Effort => V1.HeaviestReason.Effort,
                HeaviestReason.RatedLoad => V1.HeaviestReason.RatedLoad,
                _ => V1.HeaviestReason.LockUp,
            },
        };
        if (double.IsFinite(plan.ExpectedSlopeWidth))
        {
            written.ExpectedSlopeWidth = plan.ExpectedSlopeWidth;
        }

        return written;
    }

    // Of a cable that locks whatever the hand does, any weight holds.
    private static V1.PlannedStep Write(PlannedWeight weight) => new()
    {
        AddedN = weight.AddedN,
        PredictedEffortN = ScoreWriter.Write(weight.PredictedN),
        StartWithN = double.IsFinite(weight.StartWithN) ? weight.StartWithN : 0,
    };
}
