using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Options;

/// <summary>Something beside the cable and its route that could be changed, and what it costs.</summary>
/// <param name="Name">What the owner calls it; no other change has the same.</param>
/// <param name="Effect">What it does to the chain.</param>
/// <param name="Parts">What its parts cost; null: none.</param>
/// <param name="Labour">What its labour costs; null where it is given in hours, or there is none.</param>
/// <param name="LabourHours">Its labour in hours, at the rate of a price list; null where it is not given so.</param>
public sealed record Change(string Name, ChangeEffect Effect, Money? Parts, Money? Labour, decimal? LabourHours)
{
    /// <summary>Whether both can be made.</summary>
    public bool GoesWith(Change other) => !Effect.Touches.Intersect(other.Effect.Touches).Any();
}

/// <summary>A part of a chain.</summary>
public enum ChainPart
{
    /// <summary>The bearing of the helm lever.</summary>
    HelmBearing,

    /// <summary>Where the hand grips the helm lever.</summary>
    Grip,

    /// <summary>The hole of the crank in use.</summary>
    CrankHole,

    /// <summary>The hole of the arm in use.</summary>
    ArmHole,

    /// <summary>The bearing of the driven arm.</summary>
    ArmBearing,

    /// <summary>An inline device.</summary>
    Device,
}

/// <summary>A part that a change touches.</summary>
/// <param name="Part">Which.</param>
/// <param name="Device">Which device, from 0; 0 for every other part.</param>
public readonly record struct TouchedPart(ChainPart Part, int Device = 0);

/// <summary>What a change does to a chain.</summary>
public abstract record ChangeEffect
{
    private ChangeEffect()
    {
    }

    /// <summary>The parts that it touches; two changes of one part exclude each other.</summary>
    public abstract IReadOnlyList<TouchedPart> Touches { get; }

    /// <summary>Whether the arm may turn further, or less far, than before.</summary>
    public virtual bool ChangesMotion => false;

    /// <summary>The chain with it. Devices keep their places.</summary>
    internal abstract Chain AppliedTo(Chain chain);

    /// <summary>An inline device is taken out.</summary>
    /// <param name="Device">Which, from 0.</param>
    /// <param name="ArmHoleM">Where on the arm the cable is then attached, m; null: where it is.</param>
    public sealed record TakeOut(int Device, double? ArmHoleM) : ChangeEffect
    {
        /// <inheritdoc/>
        public override IReadOnlyList<TouchedPart> Touches =>
            ArmHoleM is null ? [new(ChainPart.Device, Device)] : [new(ChainPart.Device, Device), new(ChainPart.ArmHole)];

        /// <inheritdoc/>
        public override bool ChangesMotion => true;

        // A device that is not there is one without ratio and losses.
        internal override Chain AppliedTo(Chain chain) => chain with
        {
            InlineDevices =
            [
                .. chain.InlineDevices.Select((device, i) =>
                    i == Device ? device with { ForceRatio = 1, Efficiency = 1, DragN = 0 } : device),
            ],
            Arm = ArmHoleM is { } holeM ? chain.Arm with { HoleRadiusM = holeM } : chain.Arm,
        };
    }

    /// <summary>A mechanism is serviced.</summary>
    /// <param name="Part">Whose bearing, or which device.</param>
    /// <param name="Efficiency">Its efficiency then.</param>
    /// <param name="FrictionN">Its constant friction then, N.</param>
    public sealed record Service(TouchedPart Part, double Efficiency, double FrictionN) : ChangeEffect
    {
        /// <inheritdoc/>
        public override IReadOnlyList<TouchedPart> Touches => [Part];

        internal override Chain AppliedTo(Chain chain) => Part.Part switch
        {
            ChainPart.HelmBearing => chain with { Helm = chain.Helm with { Efficiency = Efficiency, FrictionN = FrictionN } },
            ChainPart.ArmBearing => chain with { Arm = chain.Arm with { Efficiency = Efficiency, FrictionN = FrictionN } },
            _ => chain with
            {
                InlineDevices =
                [
                    .. chain.InlineDevices.Select((device, i) =>
                        i == Part.Device ? device with { Efficiency = Efficiency, DragN = FrictionN } : device),
                ],
            },
        };
    }

    /// <summary>The cable is moved to other holes.</summary>
    /// <param name="CrankHoleM">Of the crank, m; null: it stays.</param>
    /// <param name="ArmHoleM">Of the arm, m; null: it stays.</param>
    public sealed record Holes(double? CrankHoleM, double? ArmHoleM) : ChangeEffect
    {
        /// <inheritdoc/>
        public override IReadOnlyList<TouchedPart> Touches =>
        [
            .. CrankHoleM is null ? [] : new[] { new TouchedPart(ChainPart.CrankHole) },
            .. ArmHoleM is null ? [] : new[] { new TouchedPart(ChainPart.ArmHole) },
        ];

        /// <inheritdoc/>
        public override bool ChangesMotion => true;

        internal override Chain AppliedTo(Chain chain) =>
            chain.Through(CrankHoleM ?? chain.Helm.CrankRadiusM, ArmHoleM ?? chain.Arm.HoleRadiusM);
    }

    /// <summary>The lever is gripped at another radius. The hand then moves further for the same turn.</summary>
    /// <param name="RadiusM">The radius, m.</param>
    public sealed record Grip(double RadiusM) : ChangeEffect
    {
        /// <inheritdoc/>
        public override IReadOnlyList<TouchedPart> Touches => [new(ChainPart.Grip)];

        internal override Chain AppliedTo(Chain chain) => chain with { Helm = chain.Helm with { GripRadiusM = RadiusM } };
    }
}
