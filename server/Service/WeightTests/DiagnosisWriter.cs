using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes a diagnosis.</summary>
internal static class DiagnosisWriter
{
    /// <summary>Writes all of it but what is around it: assumptions, cautions, the catalogue's revision.</summary>
    /// <param name="diagnosis">The diagnosis.</param>
    /// <param name="test">The test it comes from.</param>
    /// <param name="sent">Its series as they were sent.</param>
    /// <param name="stepN">The step between the weights at hand, N.</param>
    public static V1.DiagnoseInstallationResponse Write(
        Diagnosis diagnosis, WeightTest test, IEnumerable<V1.TestSeries> sent, double stepN)
    {
        DescribedChain described = diagnosis.Described;
        CableBehaviour cable = CableBehaviour.Of(diagnosis);
        var reasons = new SuspectReasons(diagnosis, cable);
        var written = new V1.DiagnoseInstallationResponse
        {
            SeriesEstimates = { EstimateWriter.Write(described, sent, test.Series) },
            Verdict = Write(diagnosis.Verdict),
            Suspects = { diagnosis.Suspects.Select(suspect => SuspectWriter.Write(suspect, reasons, described)) },
            PartShares = { diagnosis.PartShares().Select(share => Write(share, diagnosis)) },
            EffortLoadCase = diagnosis.Load.Name,
            EffortN = IntervalWriter.Write(diagnosis.EffortN(diagnosis.Load)),
            CableBehaviour = CableWriter.Write(cable, test),
            NextTests = { diagnosis.NextTests(stepN).Select(next => Write(next, described.Chain)) },
            PriorStatements = { SuspectWriter.WritePrior(described) },
            ConsideredChainCount = diagnosis.ConsideredCount,
            PossibleChainCount = diagnosis.PossibleCount,
            WeightStepN = stepN,
            SoundTolerance = new V1.SoundTolerance
            {
                LossFrom = Prior.SoundLoss.From,
                LossTo = Prior.SoundLoss.To,
                LoadFrom = Prior.SoundLoad.From,
                LoadTo = Prior.SoundLoad.To,
                StatedFrictionFrom = Prior.StatedFriction.From,
                StatedFrictionTo = Prior.StatedFriction.To,
                ModelError = Prior.ModelError,
                TwoFaultsProbability = Prior.TwoFaults,
            },
        };
        if (diagnosis.NothingAtFault is { } nothing)
        {
            written.NothingAtFaultProbability = nothing;
        }

        return written;
    }

    /// <summary>Writes what is at fault, in short.</summary>
    public static V1.DiagnosisFinding WriteFinding(Diagnosis diagnosis)
    {
        var written = new V1.DiagnosisFinding { Verdict = Write(diagnosis.Verdict) };
        if (diagnosis is { NothingAtFault: { } nothing, Suspects: [{ Probability: { } probability, Fault: var first }, ..] })
        {
            written.NothingAtFaultProbability = nothing;
            written.LeadingProbability = probability;
            written.LeadingFault = SetUpWriter.Write(first.Kind);
            written.InlineDevice = SetUpWriter.DeviceName(diagnosis.Described.Chain, first.DeviceIndex);
        }

        return written;
    }

    private static V1.DiagnosisVerdict Write(DiagnosisVerdict verdict) => verdict switch
    {
        DiagnosisVerdict.NothingStandsOut => V1.DiagnosisVerdict.NothingStandsOut,
        DiagnosisVerdict.OnePart => V1.DiagnosisVerdict.OnePart,
        DiagnosisVerdict.BetweenParts => V1.DiagnosisVerdict.BetweenParts,
        DiagnosisVerdict.CannotTell => V1.DiagnosisVerdict.CannotTell,
        _ => V1.DiagnosisVerdict.NotExplained,
    };

    private static V1.PartShare Write(PartShare share, Diagnosis diagnosis) => new()
    {
        Part = share.Part switch
        {
            ChainPart.UsefulLoad => V1.ChainPart.UsefulLoad,
            ChainPart.Arm => V1.ChainPart.Arm,
            ChainPart.Device => V1.ChainPart.InlineDevice,
            ChainPart.Cable => V1.ChainPart.Cable,
            _ => V1.ChainPart.Helm,
        },
        InlineDevice = SetUpWriter.DeviceName(diagnosis.Described.Chain, share.DeviceIndex),
        BaselineN = IntervalWriter.Write(share.BaselineN),
        Slope = IntervalWriter.Write(share.Slope),
        TestedAlone = diagnosis.Series.Any(series => IsAlone(share, series.SetUp, diagnosis.Described.Chain)),
    };

    // Devices at an end stay on what they sit at: it is then not alone.
    private static bool IsAlone(PartShare share, SetUp setUp, Chain chain) => (share.Part, setUp) switch
    {
        (ChainPart.Arm, SetUp.ArmAlone) => chain.InlineDevices.All(device => device.At != CableEnd.Arm),
        (ChainPart.Helm, SetUp.HelmAlone) => chain.InlineDevices.All(device => device.At != CableEnd.Helm),
        (ChainPart.Cable, SetUp.CableAlone) => true,
        (ChainPart.Device, SetUp.DeviceAlone device) => device.Index == share.DeviceIndex,
        _ => false,
    };

    private static V1.NextTest Write(NextTest next, Chain chain)
    {
        WrittenSetUp connected = SetUpWriter.Write(next.SetUp, chain);
        var written = new V1.NextTest
        {
            Connected = connected.Connected,
            LoadCase = connected.LoadCase,
            Direction = connected.Direction,
            InlineDevice = connected.InlineDevice,
            HangN = { next.HangN },
            StartWithN = { next.StartWithN },
            StopAtN = next.StopAtN,
            SuspectsInQuestionNow = next.InQuestionNow,
            SuspectsInQuestionAfter = next.InQuestionAfter,
            ExcessSpreadNowN = next.ExcessSpreadNowN,
            ExcessSpreadAfterN = next.ExcessSpreadAfterN,
            Outcomes = { next.Outcomes.Select(outcome => Write(outcome, chain)) },
        };
        if (next.SetUp is SetUp.CableAlone { Coil: { } coil })
        {
            (written.CoilRadiusM, written.CoilAngleRad) = (coil.RadiusM, coil.AngleRad);
        }

        return written;
    }

    private static V1.TestOutcome Write(TestOutcome outcome, Chain chain)
    {
        var written = new V1.TestOutcome
        {
            FromN = outcome.FromN,
            Probability = outcome.Probability,
            NothingAtFault = outcome.Leading is null,
            LeadingProbability = outcome.LeadingProbability,
        };
        if (outcome.ToN is { } toN)
        {
            written.ToN = toN;
        }

        if (outcome.Leading is { } leading)
        {
            written.LeadingFault = SetUpWriter.Write(leading.Kind);
            written.InlineDevice = SetUpWriter.DeviceName(chain, leading.DeviceIndex);
        }

        return written;
    }
}
