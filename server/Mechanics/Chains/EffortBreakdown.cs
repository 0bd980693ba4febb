using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>A part of the effort, in the order from the load to the hand.</summary>
public enum EffortPart
{
    /// <summary>What a chain without friction would take.</summary>
    UsefulLoad,

    /// <summary>Efficiency and friction of the driven arm.</summary>
    ArmFriction,

    /// <summary>Friction in the planned bends: the capstan law.</summary>
    Bends,

    /// <summary>Friction in the unplanned angle of the route.</summary>
    Wobble,

    /// <summary>Running drag and seal drag.</summary>
    Drags,

    /// <summary>The core pressing on the conduit because it resists bending.</summary>
    CoreStiffness,

    /// <summary>The core snaking in push.</summary>
    PushBuckling,

    /// <summary>Efficiency and drag of inline devices.</summary>
    InlineDevices,

    /// <summary>Efficiency and friction of the helm.</summary>
    Helm,
}

/// <summary>One part's share of the effort.</summary>
/// <param name="Part">The part.</param>
/// <param name="EffortN">Its share at the grip, N; infinite where this part locks the cable.</param>
public readonly record struct EffortRow(EffortPart Part, double EffortN);

/// <summary>Where the effort goes.</summary>
/// <remarks>Starts from the chain without friction and makes one part real at a time, from the load to the hand; each row
/// is the rise in effort. The rows telescope, so they add to the effort; where a part locks the cable the rows end with it.
/// </remarks>
public static class EffortBreakdown
{
    /// <summary>The rows for one load case at one set of coefficients.</summary>
    public static IReadOnlyList<EffortRow> Of(Chain chain, in CableCoefficients cable, LoadCase load)
    {
        var rows = new List<EffortRow>();
        double sumN = 0;
        foreach (EffortPart part in Enum.GetValues<EffortPart>())
        {
            double effortN = EffortUpTo(part, chain, cable, load);
            rows.Add(new EffortRow(part, effortN - sumN));
            if (double.IsInfinity(effortN))
            {
                break;
            }

            sumN = effortN;
        }

        return rows;
    }

    // Effort with every part up to and including the given one real, and those after it without friction.
    private static double EffortUpTo(EffortPart part, Chain chain, in CableCoefficients cable, LoadCase load)
    {
        Chain partial = chain with
        {
            Arm = part >= EffortPart.ArmFriction ? chain.Arm : chain.Arm with { Efficiency = 1, FrictionN = 0 },
            Helm = part >= EffortPart.Helm ? chain.Helm : chain.Helm with { Efficiency = 1, FrictionN = 0 },
            InlineDevices = part >= EffortPart.InlineDevices
                ? chain.InlineDevices
                : [.. chain.InlineDevices.Select(d => d with { Efficiency = 1, DragN = 0 })],
        };
        bool drags = part >= EffortPart.Drags;
        var partialCable = new CableCoefficients(
            part >= EffortPart.Bends ? cable.Friction : 0,
            part >= EffortPart.Wobble ? cable.WobbleRadPerM : 0,
            drags ? cable.SealDragN : 0,
            drags ? cable.RunningDragNPerM : 0,
            part >= EffortPart.CoreStiffness ? cable.Core : null,
            part >= EffortPart.Bends ? cable.HiddenShare : 0);

        // In pull a core has its stiffness but does not snake: push short of buckling.
        LoadCase partialLoad = part >= EffortPart.PushBuckling ? load : load with { Direction = Direction.Pull };
        return Effort.AtGripN(partial, partialCable, partialLoad);
    }
}
