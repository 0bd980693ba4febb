using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes suspects, why they are suspected, and what was likely before.</summary>
internal static class SuspectWriter
{
    /// <summary>Writes a suspect.</summary>
    public static V1.Suspect Write(Suspect suspect, SuspectReasons reasons, DescribedChain described)
    {
        var written = new V1.Suspect
        {
            Kind = SetUpWriter.Write(suspect.Fault.Kind),
            InlineDevice = SetUpWriter.DeviceName(described.Chain, suspect.Fault.DeviceIndex),
            PriorProbability = suspect.PriorProbability,
            ExcessN = IntervalWriter.Write(suspect.ExcessN),
            Needed = IntervalWriter.Write(suspect.Needed),
            NeededForceN = IntervalWriter.Write(suspect.NeededForceN),
            Reasons = { reasons.Of(suspect).Select(reason => Write(reason, described)) },
        };
        if (suspect.Probability is { } probability)
        {
            written.Probability = probability;
        }

        return written;
    }

    /// <summary>Writes what was taken to be likely before any reading.</summary>
    public static IEnumerable<V1.PriorStatement> WritePrior(DescribedChain described) =>
    [
        new V1.PriorStatement { Probability = Prior.NothingAtFault },
        .. Prior.Faults(described).Select(f => Write(f.Fault, f.Probability, described)),
    ];

    private static V1.PriorStatement Write(Fault fault, double probability, DescribedChain described)
    {
        Chain chain = described.Chain;
        var written = new V1.PriorStatement
        {
            Kind = SetUpWriter.Write(fault.Kind),
            InlineDevice = SetUpWriter.DeviceName(chain, fault.DeviceIndex),
            Probability = probability,
        };
        double? efficiency = fault.Kind switch
        {
            FaultKind.Helm => chain.Helm.Efficiency,
            FaultKind.Arm => chain.Arm.Efficiency,
            FaultKind.Device => chain.InlineDevices[fault.DeviceIndex].Efficiency,
            _ => null,
        };
        if (efficiency is { } sound)
        {
            (written.SeverityFrom, written.SeverityTo) = (Prior.FaultyEfficiency(sound).From, Prior.FaultyEfficiency(sound).To);
            (written.ForceFromN, written.ForceToN) = (Prior.FaultyFrictionN.From, Prior.FaultyFrictionN.To);
        }
        else
        {
            Mechanics.Diagnoses.Range severity = fault.Kind switch
            {
                FaultKind.Liner => TimesLikely(Prior.SoundFriction(described.Cable.Friction)),
                FaultKind.Bends => Prior.HiddenBendRad,
                FaultKind.Stop => Prior.StopN,
                _ => Prior.LargerLoad,
            };
            (written.SeverityFrom, written.SeverityTo) = (severity.From, severity.To);
        }

        return written;
    }

    private static Mechanics.Diagnoses.Range TimesLikely(Mechanics.Bands.Band sound)
    {
        double likely = Math.Max(sound.Likely, Mechanics.Limits.Friction.Most / 100);
        return new(Prior.WornFriction(sound).From / likely, Prior.WornFriction(sound).To / likely);
    }

    private static V1.SuspectReason Write(SuspectReason reason, DescribedChain described) => reason switch
    {
        SuspectReason.TightBend tight => new V1.SuspectReason
        {
            Kind = V1.SuspectReasonKind.TightBend,
            TightBend = ScoreWriter.WriteTightBend(tight.Index + 1, tight.Bend.RadiusM, described.MinBendRadiusM!.Value),
        },
        SuspectReason.FrictionAboveBand => Of(V1.SuspectReasonKind.FrictionAboveBand),
        SuspectReason.FrictionMayBeInBand => Of(V1.SuspectReasonKind.FrictionMayBeInBand),
        SuspectReason.TakesMoreAlone more => OfApart(V1.SuspectReasonKind.TakesMoreAlone, more.Apart),
        SuspectReason.AsSoundAlone sound => OfApart(V1.SuspectReasonKind.AsSoundAlone, sound.Apart),
        SuspectReason.ExcessGrows grows => Of(V1.SuspectReasonKind.ExcessGrows, grows.Series),
        SuspectReason.ExcessIsConstant constant => Of(V1.SuspectReasonKind.ExcessIsConstant, constant.Series),
        SuspectReason.BendsUpward upward => Of(V1.SuspectReasonKind.BendsUpward, upward.Series),
        SuspectReason.NotTestedApart => Of(V1.SuspectReasonKind.NotTestedApart),
        SuspectReason.RuledOut => Of(V1.SuspectReasonKind.RuledOut),
        _ => throw new InvalidOperationException($"no word in the contract for {reason}"),
    };

    private static V1.SuspectReason Of(V1.SuspectReasonKind kind, int series = -1) =>
        new() { Kind = kind, SeriesNumber = series + 1 };

    private static V1.SuspectReason OfApart(V1.SuspectReasonKind kind, TestedApart apart) => new()
    {
        Kind = kind,
        SeriesNumber = apart.Series + 1,
        MeasuredN = IntervalWriter.Write(apart.MeasuredN),
        SoundN = ScoreWriter.Write(apart.SoundN),
        WeightN = apart.WeightN,
    };
}
