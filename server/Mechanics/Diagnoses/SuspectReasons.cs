using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Finds why a part is or is not suspected: what a person would read off the series, beside the probabilities.</summary>
public sealed class SuspectReasons
{
    // Over which the slope of a straight line is taken, N.
    private const double SlopeOverN = 100;

    private readonly Diagnosis _diagnosis;
    private readonly CableBehaviour _cable;
    private readonly Finding[] _findings;

    /// <summary>Reads the series of a diagnosis.</summary>
    /// <param name="diagnosis">The diagnosis.</param>
    /// <param name="cable">What its cable does.</param>
    public SuspectReasons(Diagnosis diagnosis, CableBehaviour cable)
    {
        (_diagnosis, _cable) = (diagnosis, cable);
        _findings = [.. diagnosis.Series.Select((series, index) => Find(diagnosis.Described, series, index))];
    }

    private enum Growth
    {
        NotKnown,
        Grows,
        Constant,
    }

    /// <summary>The reasons, in the order of <see cref="SuspectReason"/>'s kinds.</summary>
    public IReadOnlyList<SuspectReason> Of(Suspect suspect)
    {
        Fault fault = suspect.Fault;
        Finding[] concerned = [.. _findings.Where(f => IsIn(fault, f.SetUp))];
        Finding[] apart = [.. concerned.Where(f => f.SetUp is not SetUp.WholeChain)];
        return
        [
            .. OfCable(fault),
            .. apart.Select(f => f.Apart).OfType<TestedApart>().SelectMany(OfApart),
            .. concerned.Where(f => f.Growth == Growth.Grows && MayGrow(fault)).Select(f => new SuspectReason.ExcessGrows(f.Index)),
            .. concerned.Where(f => f.Growth == Growth.Constant && MayBeConstant(fault))
                .Select(f => new SuspectReason.ExcessIsConstant(f.Index)),
            .. concerned.Where(f => f.BendsUpward && fault.Kind is FaultKind.Stop or FaultKind.Bends)
                .Select(f => new SuspectReason.BendsUpward(f.Index)),
            .. apart.Length == 0 ? [new SuspectReason.NotTestedApart()] : Array.Empty<SuspectReason>(),
            .. suspect.Probability == 0 ? [new SuspectReason.RuledOut()] : Array.Empty<SuspectReason>(),
        ];
    }

    private IEnumerable<SuspectReason> OfCable(Fault fault)
    {
        if (fault.Kind == FaultKind.Bends)
        {
            foreach ((int index, Routes.Bend bend) in _diagnosis.Described.TightBends)
            {
                yield return new SuspectReason.TightBend(index, bend);
            }
        }

        if (fault.Kind is FaultKind.Liner or FaultKind.Bends && _findings.Any(f => f.SetUp.HasCable))
        {
            if (_cable.Verdict == FrictionVerdict.AboveBand)
            {
                yield return new SuspectReason.FrictionAboveBand();
            }
            else if (_cable.Verdict is FrictionVerdict.InBand or FrictionVerdict.MayBeInBand)
            {
                yield return new SuspectReason.FrictionMayBeInBand();
            }
        }
    }

    private static IEnumerable<SuspectReason> OfApart(TestedApart apart)
    {
        if (apart.TakesMore)
        {
            yield return new SuspectReason.TakesMoreAlone(apart);
        }
        else if (apart.MayBeSound)
        {
            yield return new SuspectReason.AsSoundAlone(apart);
        }
    }

    private static bool MayGrow(Fault fault) => fault.Kind is not (FaultKind.Stop or FaultKind.Load);

    private static bool MayBeConstant(Fault fault) => fault.Kind is not (FaultKind.Liner or FaultKind.Bends);

    // A cable on the floor is not in the bends of its route.
    private bool IsIn(Fault fault, SetUp setUp) => setUp is SetUp.WholeChain || fault.Kind switch
    {
        FaultKind.Liner => setUp.HasCable,
        FaultKind.Bends => setUp is SetUp.CableOffAtArm,
        FaultKind.Helm => setUp is SetUp.CableOffAtArm or SetUp.HelmAlone,
        FaultKind.Arm or FaultKind.Load => setUp is SetUp.ArmAlone,
        FaultKind.Device when setUp is SetUp.DeviceAlone device => device.Index == fault.DeviceIndex,
        FaultKind.Device => _diagnosis.Described.Chain.InlineDevices[fault.DeviceIndex].At == CableEnd.Helm
            ? setUp is SetUp.CableOffAtArm or SetUp.HelmAlone
            : setUp is SetUp.ArmAlone,
        _ => false,
    };

    private static Finding Find(DescribedChain described, TestedSeries tested, int index)
    {
        bool isLinear = SoundChain.IsLinear(described, tested.SetUp);
        PossibleLines? lines = isLinear
            ? PossibleLines.Of(tested.Series, SoundChain.LeastSlope(described, tested.SetUp))
            : null;
        var whole = tested.SetUp as SetUp.WholeChain;
        return new Finding(
            index,
            tested.SetUp,
            whole is null ? ApartOf(described, tested, index, lines) : null,
            whole is not null && lines is not null ? GrowthOf(described, whole, lines) : Growth.NotKnown,
            isLinear && Shape.Of(tested.Series) == LineShape.BendsUpward);
    }

    private static TestedApart ApartOf(DescribedChain described, TestedSeries tested, int index, PossibleLines? lines)
    {
        WeightReading heaviest = tested.Series.Readings.MaxBy(r => r.AddedN)!;
        double weightN = heaviest.AddedN;
        ForceBand soundN = SoundN(weightN);
        if (lines is not null)
        {
            return new TestedApart(index, weightN, Spread.OfEffortN(lines, weightN), soundN);
        }

        // As read: sound parts with the least and the most that may have hung.
        WeightSeries series = tested.Series;
        double mostN = series.MostN(heaviest);
        return new TestedApart(
            index,
            weightN,
            new Spread(series.LeastN(heaviest), double.IsFinite(mostN) ? mostN : null, null),
            new ForceBand(
                SoundN(series.LeastAddedN(heaviest)).LowN, soundN.LikelyN, SoundN(series.MostAddedN(heaviest)).HighN));

        ForceBand SoundN(double addedN) => SoundChain.ForceN(described, tested.SetUp, addedN);
    }

    // Sound parts under any load take a = b Q + c with nothing hung: at the slope b that was measured, Q a little more than
    // described and c what they take with no load, a is no more than this, or something constant is there beside them.
    private static Growth GrowthOf(DescribedChain described, SetUp.WholeChain whole, PossibleLines lines)
    {
        var unloaded = new SetUp.WholeChain(whole.Load with { ForceN = 0 });
        double soundConstantN = SoundChain.ForceN(described, unloaded, 0).HighN;
        double soundSlope = (SoundChain.ForceN(described, unloaded, SlopeOverN).HighN - soundConstantN) / SlopeOverN;
        double mostLoadN = whole.Load.ForceN * Prior.SoundLoad.To;
        (double leastSlope, double? mostSlope) = lines.Slope();
        return leastSlope > soundSlope ? Growth.Grows
            : mostSlope <= soundSlope
                && lines.Corners.Min(line => line.BaselineN - (line.Slope * mostLoadN)) > soundConstantN ? Growth.Constant
            : Growth.NotKnown;
    }

    private sealed record Finding(int Index, SetUp SetUp, TestedApart? Apart, Growth Growth, bool BendsUpward);
}
