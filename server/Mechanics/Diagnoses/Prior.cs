using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What is taken to be likely before anything is read. All of it is assumed: nobody counted.</summary>
/// <remarks>At most two parts are at fault, and of one part only one thing. A sound mechanism loses half to one and a half times what
/// it is described to lose. A sound cable is within the band described. A fault begins where soundness ends.</remarks>
public static class Prior
{
    /// <summary>How likely it is that nothing is at fault.</summary>
    public const double NothingAtFault = 0.4;

    /// <summary>How likely it is that exactly one thing is at fault.</summary>
    public const double OneFault = 0.5;

    /// <summary>How likely it is that two things are.</summary>
    public const double TwoFaults = 1 - NothingAtFault - OneFault;

    /// <summary>How far from what it computes the model of a chain is trusted to be off: a share of each force.</summary>
    public const double ModelError = 0.02;

    /// <summary>Friction of any sound cable, where neither its grade nor its friction is known.</summary>
    public static readonly Band AnySoundFriction = new(0.05, 0.12, 0.25);

    // A worn liner has at most so many times the likely friction of a sound one.
    private const double MostWorn = 5;

    // A faulty mechanism has at least so much of the efficiency it is described to have.
    private const double LeastFaulty = 0.4;

    /// <summary>Bend that is in the route beyond what is described, where bends are at fault, rad.</summary>
    public static readonly Range HiddenBendRad = new(0.2, 7);

    /// <summary>Constant friction that a mechanism at fault has beyond a sound one, N: 1 to 30 lbf.</summary>
    public static readonly Range FaultyFrictionN = new(4.5, 130);

    /// <summary>Force of a stop met early, at the arm's hole, N: 1 to 25 lbf.</summary>
    public static readonly Range StopN = new(4.5, 110);

    /// <summary>A load that is larger than thought, times what it is described to be.</summary>
    public static readonly Range LargerLoad = new(1.1, 3);

    /// <summary>A load that is as described, times that.</summary>
    public static readonly Range SoundLoad = new(0.9, 1.1);

    /// <summary>What a sound mechanism loses, times what it is described to lose.</summary>
    public static readonly Range SoundLoss = new(0.5, 1.5);

    /// <summary>Friction of a sound cable that is stated without a band, times what is stated.</summary>
    public static readonly Range StatedFriction = new(0.8, 1.25);

    /// <summary>Every fault that the chain can have, with how likely it is to be the only one.</summary>
    public static IReadOnlyList<(Fault Fault, double Probability)> Faults(DescribedChain described)
    {
        var weights = new List<(Fault Fault, double Weight)>
        {
            (new Fault(FaultKind.Liner), 3),
            (new Fault(FaultKind.Bends), described.TightBends.Any() ? 4 : 0.3),
            (new Fault(FaultKind.Arm), 1),
            (new Fault(FaultKind.Helm), 1),
            (new Fault(FaultKind.Stop), 0.3),
        };
        weights.AddRange(described.Chain.InlineDevices.Index().Select(d => (new Fault(FaultKind.Device, d.Index), 1.5)));
        if (described.Loads.Any(load => load.ForceN > 0))
        {
            weights.Add((new Fault(FaultKind.Load), 0.3));
        }

        double whole = weights.Sum(w => w.Weight);
        return [.. weights.Select(w => (w.Fault, OneFault * w.Weight / whole))];
    }

    /// <summary>Nothing, each thing alone and each two things of different parts, with how likely that is; all add to 1 where two
    /// parts can be at fault.</summary>
    public static IReadOnlyList<(IReadOnlyList<Fault> Faults, double Probability)> Suppositions(DescribedChain described)
    {
        IReadOnlyList<(Fault Fault, double Probability)> single = Faults(described);
        (Fault[] Faults, double Weight)[] pairs =
        [
            .. single.SelectMany((one, i) => single.Skip(i + 1)
                .Where(other => !one.Fault.SharesPartWith(other.Fault))
                .Select(other => (new[] { one.Fault, other.Fault }, one.Probability * other.Probability))),
        ];
        double whole = pairs.Sum(p => p.Weight);
        return
        [
            ([], NothingAtFault),
            .. single.Select(one => ((IReadOnlyList<Fault>)[one.Fault], one.Probability)),
            .. pairs.Select(pair => ((IReadOnlyList<Fault>)pair.Faults, TwoFaults * pair.Weight / whole)),
        ];
    }

    /// <summary>How likely one thing is at fault, alone or with one other.</summary>
    public static double Probability(DescribedChain described, Fault fault) =>
        Suppositions(described).Where(s => s.Faults.Contains(fault)).Sum(s => s.Probability);

    /// <summary>Friction of a worn liner, from where a sound one ends.</summary>
    /// <param name="sound">That of a sound one.</param>
    public static Range WornFriction(Band sound)
    {
        double from = Math.Clamp(sound.High, 0.01, Limits.Friction.Most / 1.2);
        return new Range(from, Math.Min(Limits.Friction.Most, Math.Max(MostWorn * sound.Likely, 1.2 * from)));
    }

    /// <summary>Efficiency of a mechanism at fault, up to where a sound one ends.</summary>
    /// <param name="described">As described.</param>
    public static Range FaultyEfficiency(double described)
    {
        double to = SoundEfficiency(described, 1);
        return new Range(Math.Max(Limits.Efficiency.Least, Math.Min(LeastFaulty * described, to / 2)), to);
    }

    /// <summary>The likely friction of a sound cable and how far it may be from it: a value stated without a band is not exact.</summary>
    public static Band SoundFriction(Band described) => Widened(described, StatedFriction.From, StatedFriction.To);

    /// <summary>The same for the route's wobble.</summary>
    public static Band Wobble(Band described) => Widened(described, 0.6, 1.6);

    /// <summary>Efficiency of a sound mechanism.</summary>
    /// <param name="described">As described.</param>
    /// <param name="at">0: it loses half of that, 1: one and a half times.</param>
    internal static double SoundEfficiency(double described, double at) =>
        Math.Max(Limits.Efficiency.Least, 1 - ((1 - described) * SoundLoss.At(at)));

    /// <summary>Constant friction of a sound mechanism, N; one described to have none may have a little.</summary>
    internal static double SoundFrictionN(double describedN, double at) =>
        describedN > 0 ? describedN * SoundLoss.At(at) : 2 * at;

    private static Band Widened(Band band, double low, double high) =>
        band.Low < band.High ? band : new Band(band.Likely * low, band.Likely, band.Likely * high);
}

/// <summary>From where to where something is taken to lie, every part of it as likely as any other.</summary>
/// <param name="From">From.</param>
/// <param name="To">To.</param>
public readonly record struct Range(double From, double To)
{
    /// <summary>The value at a share of the range.</summary>
    internal double At(double share) => From + (share * (To - From));

    /// <summary>The same, every ratio as likely as any other.</summary>
    internal double AtRatio(double share) => From * Math.Pow(To / From, share);
}
