using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>Whether the arm gets where it has to.</summary>
public enum ArmReach
{
    /// <summary>To both ends of what it has to turn.</summary>
    BothEnds,

    /// <summary>It falls short.</summary>
    FallsShort,

    /// <summary>The travel would take it past 90 degrees from perpendicular.</summary>
    OverRuns,

    /// <summary>It is not known how far it has to turn.</summary>
    NotStated,
}

/// <summary>From the crank to the arm.</summary>
/// <remarks>Crank: r |sin b2 - sin b1|. A device moves its arm side by rho times its helm side. What the cable loses is taken off once.</remarks>
/// <param name="CrankM">Travel of the crank, m.</param>
/// <param name="CableM">Travel of the cable at its helm end, m.</param>
/// <param name="Lost">What the cable loses.</param>
/// <param name="ArmM">What is left at the arm's hole, m.</param>
/// <param name="TurnedRad">How far the arm turns, rad; null where it over-runs.</param>
/// <param name="NeededRad">How far it has to, rad; null where not known.</param>
public sealed record Travel(
    double CrankM, double CableM, LostMotion Lost, double ArmM, double? TurnedRad, double? NeededRad)
{
    /// <summary>An arm is as far as it has to be within this share of what it has to turn: nobody reads a lever closer.</summary>
    public const double NearEnough = 0.01;

    /// <summary>What is left at the cable's output end, m.</summary>
    public double OutputM => Math.Max(0, CableM - Lost.TotalM);

    /// <summary>Whether the arm gets there.</summary>
    public ArmReach Reach => (TurnedRad, NeededRad) switch
    {
        (null, _) => ArmReach.OverRuns,
        (_, null) => ArmReach.NotStated,
        ({ } turned, { } needed) => turned < needed * (1 - NearEnough) ? ArmReach.FallsShort : ArmReach.BothEnds,
    };

    /// <summary>How far the arm falls short, rad; null where it does not.</summary>
    public double? ShortByRad => Reach == ArmReach.FallsShort ? NeededRad - TurnedRad : null;

    /// <summary>The travel of a chain in the load case in which its cable loses most.</summary>
    /// <returns>Null where the helm's sweep is not known, or the cable locks under a load.</returns>
    public static Travel? Of(Chain chain, ArmSwing swing, RiggedCable cable, IReadOnlyList<LoadCase> loads)
    {
        LostMotion lost = loads.Select(load => LostMotion.Of(chain, cable, load)).MaxBy(l => l.StretchM);
        return chain.Helm.Sweep is null || !double.IsFinite(lost.StretchM) ? null : Of(chain, swing, lost);
    }

    /// <summary>The travel of a chain whose cable loses so much. The helm's sweep must be known.</summary>
    internal static Travel Of(Chain chain, ArmSwing swing, LostMotion lost)
    {
        double cableM = Effort.CableTravelM(chain)!.Value;
        double armM = Math.Max(0, cableM - lost.TotalM) * ArmSideGain(chain);
        return new Travel(
            chain.Helm.Sweep!.Value.TravelM(chain.Helm.CrankRadiusM),
            cableM,
            lost,
            armM,
            swing.TurnedRad(chain.Arm.HoleRadiusM, armM),
            swing.NeededRad);
    }

    /// <summary>What the devices at the arm end make of a travel: the arm's side over the cable's.</summary>
    public static double ArmSideGain(Chain chain) => Gain(chain, CableEnd.Arm);

    /// <summary>What the devices at one end of the cable make of a travel: their arm side over their helm side.</summary>
    internal static double Gain(Chain chain, CableEnd end) => chain.InlineDevices
        .Where(device => device.At == end)
        .Aggregate(1.0, (gain, device) => gain * device.ForceRatio);
}
