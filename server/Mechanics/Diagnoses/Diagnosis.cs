using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What a diagnosis amounts to.</summary>
public enum DiagnosisVerdict
{
    /// <summary>The readings are what sound parts would give.</summary>
    NothingStandsOut,

    /// <summary>Something is at fault, most likely the first suspect.</summary>
    OnePart,

    /// <summary>Something is at fault, and it is not yet clear what.</summary>
    BetweenParts,

    /// <summary>It is not yet clear whether anything is at fault.</summary>
    CannotTell,

    /// <summary>No chain that was considered gives the readings.</summary>
    NotExplained,
}

/// <summary>Something that may be at fault.</summary>
/// <param name="Fault">What.</param>
/// <param name="Probability">How likely it is at fault, alone or with one other; null where no chain gives the readings.</param>
/// <param name="PriorProbability">The same before any reading, alone or with one other.</param>
/// <param name="ExcessN">What it adds at the grip over one as described, N, where it is at fault.</param>
/// <param name="Needed">What it would have to be: friction of a liner, hidden bend in rad, efficiency of a mechanism, load in N.
/// </param>
/// <param name="NeededForceN">Constant friction that a mechanism, or force that a stop, would have to have, N.</param>
public sealed record Suspect(
    Fault Fault, double? Probability, double PriorProbability, Spread? ExcessN, Spread? Needed, Spread? NeededForceN);

/// <summary>What weight tests say of a chain.</summary>
public sealed class Diagnosis
{
    /// <summary>The most chains put together for each supposition.</summary>
    public const int MostDrawn = 32768;

    // Chances: that all is sound, below which something is at fault and from which nothing need be; and of the first suspect,
    // from which it is named alone.
    private const double Doubtful = 0.1;
    private const double Sound = 0.5;
    private const double Sure = 0.75;

    // One chain in twenty has less.
    private const double Few = 0.05;

    private readonly PossibleChains _possible;
    private readonly Lazy<(SetCable Set, double Weight)[]> _sets;

    private Diagnosis(DescribedChain described, IReadOnlyList<TestedSeries> series, PossibleChains possible)
    {
        (Described, Series, _possible) = (described, series, possible);
        _sets = new(() =>
            [.. possible.Chains.Select(c => (new SetCable(SettingOf(c.Chain), c.Chain.HelmSide.Cable.Coefficients), c.Weight))]);
        Load = series.Select(s => s.SetUp.LoadOnArm).OfType<LoadCase>().FirstOrDefault() ?? described.Loads[0];
        Suspects = [.. Prior.Faults(described)
            .Select(f => SuspectOf(f.Fault))
            .OrderByDescending(s => s.Probability)
            .ThenByDescending(s => s.PriorProbability)];
    }

    /// <summary>The chain as described.</summary>
    public DescribedChain Described { get; }

    /// <summary>The tests it comes from.</summary>
    public IReadOnlyList<TestedSeries> Series { get; }

    /// <summary>The load case that shares and excesses are of: the first that was tested.</summary>
    public LoadCase Load { get; }

    /// <summary>Everything that may be at fault, most likely first.</summary>
    public IReadOnlyList<Suspect> Suspects { get; }

    /// <summary>How likely it is that nothing is at fault; null where no chain gives the readings.</summary>
    public double? NothingAtFault => _possible.Any ? Math.Min(1, _possible.NothingAtFault) : null;

    /// <summary>How many chains were put together.</summary>
    public int ConsideredCount => _possible.ConsideredCount;

    /// <summary>How many of them give every reading.</summary>
    public int PossibleCount => _possible.Chains.Count;

    /// <summary>What it amounts to.</summary>
    public DiagnosisVerdict Verdict => NothingAtFault switch
    {
        null => DiagnosisVerdict.NotExplained,
        >= Sound => DiagnosisVerdict.NothingStandsOut,
        >= Doubtful => DiagnosisVerdict.CannotTell,
        _ => Suspects[0].Probability >= Sure ? DiagnosisVerdict.OnePart : DiagnosisVerdict.BetweenParts,
    };

    /// <summary>Reads the tests of a chain.</summary>
    /// <param name="described">The chain as described.</param>
    /// <param name="series">The series; none: what is likely before any.</param>
    /// <param name="mostDrawn">The most chains to put together for each supposition.</param>
    /// <param name="cancellation">Gives up before the next chain is put together.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static Diagnosis Of(
        DescribedChain described,
        IReadOnlyList<TestedSeries> series,
        int mostDrawn = MostDrawn,
        CancellationToken cancellation = default) =>
        new(described, series, PossibleChains.Of(described, series, mostDrawn, cancellation));

    /// <summary>Where the effort goes, from the load to the hand.</summary>
    public IReadOnlyList<PartShare> PartShares() => Diagnoses.PartShares.Of(Described, _possible, Load);

    /// <summary>Tests that could be made next, the one that is expected to narrow the question most first.</summary>
    /// <param name="stepN">The step between the weights at hand, N, > 0.</param>
    public IReadOnlyList<NextTest> NextTests(double stepN) => Diagnoses.NextTests.Of(Described, _possible, Series, Load, stepN);

    private Suspect SuspectOf(Fault fault)
    {
        double prior = Prior.Probability(Described, fault);
        if (!_possible.Any)
        {
            return new Suspect(fault, null, prior, null, null, null);
        }

        var excess = new ExcessOf(Described, _possible.Typical, Load);
        WeightedChain[] having = [.. _possible.Chains.Where(c => c.Chain.Faults.Contains(fault))];
        return new Suspect(
            fault,
            Math.Min(1, having.Sum(c => c.Weight)),
            prior,
            Spread.Of(having.Select(c => (excess.N(c.Chain, fault), c.Weight))),
            Spread.Of(having.Select(c => (NeededOf(fault, c.Chain), c.Weight)).Where(n => !double.IsNaN(n.Item1))),
            Spread.Of(having.Select(c => (NeededForceN(fault, c.Chain), c.Weight)).Where(n => !double.IsNaN(n.Item1))));
    }

    /// <summary>Friction that the cable behaves with on its route as described, over all possible chains.</summary>
    public Spread? FrictionOnRoute(bool othersSound = false) => Spread.Of(_possible.Chains
        .Where(c => !othersSound || c.Chain.Faults.All(f => f.Kind == FaultKind.Liner))
        .Select(c => (c.Chain.HelmSide.Cable.Coefficients.FrictionOnRoute, c.Weight)));

    /// <summary>Effort in a load case with nothing hung, over all possible chains, N; null where there is none.</summary>
    public Spread? EffortN(LoadCase load)
    {
        var whole = new SetUpForce(Described.Chain, new SetUp.WholeChain(load));
        return Spread.Of(_possible.Chains.Select(c => (whole.N(c.Chain, 0), c.Weight)));
    }

    /// <summary>What stays when the cable is changed, and the cable that is there now, in three chains that are possible: those with
    /// little (5 %) and much (95 %) of the effort in the cable, and the one that is nearest the middle both in that and in the whole
    /// effort. Empty where no chain is possible.</summary>
    public IReadOnlyDictionary<BandEnd, SetCable> Settings()
    {
        if (!_possible.Any)
        {
            return new Dictionary<BandEnd, SetCable>();
        }

        double[] inCable = Ranks(
            one => one.WorstN - one.Setting.WorstN(default(CableCoefficients) with { WobbleRadPerM = one.Cable.WobbleRadPerM }));
        double[] inAll = Ranks(one => one.WorstN);
        return new Dictionary<BandEnd, SetCable>
        {
            [BandEnd.Low] = Nearest(i => Math.Abs(inCable[i] - Few)),
            [BandEnd.Likely] = Nearest(i => Math.Max(Math.Abs(inCable[i] - 0.5), Math.Abs(inAll[i] - 0.5))),
            [BandEnd.High] = Nearest(i => Math.Abs(inCable[i] - (1 - Few))),
        };
    }

    /// <summary>Chains that stand for all that are possible, as many as asked for or fewer, each as likely as the others: one from each equal
    /// share of them in the order of their effort. Empty where no chain is possible.</summary>
    public IReadOnlyList<SetCable> EvenSettings(int count)
    {
        (SetCable Set, double WorstN, double Weight)[] byEffort =
            [.. _sets.Value.Select(one => (one.Set, one.Set.WorstN, one.Weight)).OrderBy(one => one.WorstN)];
        double all = byEffort.Sum(one => one.Weight);
        var picked = new List<SetCable>();
        double passed = 0;
        foreach ((SetCable set, _, double weight) in byEffort)
        {
            passed += weight;
            while (picked.Count < count && passed >= (picked.Count + 0.5) / count * all)
            {
                picked.Add(set);
            }
        }

        return picked;
    }

    /// <summary>The same in two chains with little (5 %) and much (95 %) effort in all.</summary>
    public IReadOnlyList<SetCable> ExtremeSettings()
    {
        double[] inAll = Ranks(one => one.WorstN);
        return inAll.Length == 0
            ? []
            : [Nearest(i => Math.Abs(inAll[i] - Few)), Nearest(i => Math.Abs(inAll[i] - (1 - Few)))];
    }

    private SetCable Nearest(Func<int, double> distance) => _sets.Value[Enumerable.Range(0, _sets.Value.Length).MinBy(distance)].Set;

    // For every chain how likely it is that one has less, half of those with as much among them.
    private double[] Ranks(Func<SetCable, double> value)
    {
        double[] ranks = new double[_sets.Value.Length];
        double below = 0;
        foreach (IGrouping<double, int> alike in Enumerable.Range(0, ranks.Length)
            .GroupBy(i => value(_sets.Value[i].Set)).OrderBy(group => group.Key))
        {
            double weight = alike.Sum(i => _sets.Value[i].Weight);
            foreach (int i in alike)
            {
                ranks[i] = below + (weight / 2);
            }

            below += weight;
        }

        return ranks;
    }

    // A stop that is met early squeezes at the hole: at the load it comes to as much more load in that direction.
    private Setting SettingOf(in PossibleChain chain)
    {
        (HelmSide near, ArmSide far) = (chain.HelmSide, chain.ArmSide);
        Chain described = Described.Chain;
        MechanismSample arm = far.Arm.Mechanism;
        InlineDevice[] devices = [.. described.InlineDevices.Select((device, i) =>
        {
            MechanismSample sample = (device.At == CableEnd.Helm ? near.Devices : far.Devices)[i];
            return device with { Efficiency = sample.Efficiency, DragN = sample.Stage.DragN };
        })];
        (ArmSample onArm, CableSample cable) = (far.Arm, near.Cable);
        return new Setting(
            new Chain(
                described.Helm with { Efficiency = near.Helm.Efficiency, FrictionN = near.Helm.Stage.DragN },
                described.Route,
                devices,
                described.Arm with { Efficiency = arm.Efficiency, FrictionN = arm.Stage.DragN }),
            [.. Described.Loads.Select(load => load with
            {
                // What the load may be is among what the test leaves open.
                RangeN = null,
                ForceN = (load.ForceN * onArm.LoadFactor)
                    + (load.Direction == onArm.StopDirection ? onArm.StopN / arm.Stage.Gain : 0),
            })],
            cable.Coefficients.WobbleRadPerM,
            cable.Coefficients.HiddenShare);
    }

    // What it would have to be, where it is at fault; NaN where the other kind of need explains it.
    private double NeededOf(Fault fault, in PossibleChain chain) => fault.Kind switch
    {
        FaultKind.Liner => chain.HelmSide.Cable.Coefficients.Friction,
        FaultKind.Bends => chain.HelmSide.Cable.Coefficients.HiddenShare * Described.AngleRad,
        FaultKind.Load => Load.ForceN > 0 ? chain.ArmSide.Arm.LoadFactor * Load.ForceN : double.NaN,
        FaultKind.Stop => double.NaN,
        _ => Mechanism(fault, chain) is { LostEfficiency: true } mechanism ? mechanism.Efficiency : double.NaN,
    };

    private double NeededForceN(Fault fault, in PossibleChain chain) => fault.Kind switch
    {
        FaultKind.Stop => chain.ArmSide.Arm.StopN,
        FaultKind.Liner or FaultKind.Bends or FaultKind.Load => double.NaN,
        _ => Mechanism(fault, chain) is { LostEfficiency: false } mechanism ? mechanism.Stage.DragN : double.NaN,
    };

    private MechanismSample Mechanism(Fault fault, in PossibleChain chain) => fault.Kind switch
    {
        FaultKind.Helm => chain.HelmSide.Helm,
        FaultKind.Arm => chain.ArmSide.Arm.Mechanism,
        _ => (Described.Chain.InlineDevices[fault.DeviceIndex].At == CableEnd.Helm
            ? chain.HelmSide.Devices
            : chain.ArmSide.Devices)[fault.DeviceIndex],
    };
}

/// <summary>A cable in a setting.</summary>
/// <param name="Setting">What stays when the cable is changed.</param>
/// <param name="Cable">The coefficients that the cable behaves with there.</param>
public sealed record SetCable(Setting Setting, CableCoefficients Cable)
{
    /// <summary>Effort in the worst load case, N.</summary>
    public double WorstN => Setting.WorstN(Cable);
}
