using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;
using Money = Google.Type.Money;

namespace CableCatalog.Client.Tests.Output;

/// <summary>Invented answers to print. No number in them was computed: they are there to be shown, and each is a round number
/// of pounds so that it is easily found again.</summary>
internal static class Invented
{
    // NIST Special Publication 811 (2008), appendix B.8.
    private const double Lbf = 4.4482216152605;
    private const double Inch = 0.0254;

    public static readonly Figures Us = new(UnitSystem.Us);

    public static readonly Figures Si = new(UnitSystem.Si);

    public static double N(double lbf) => lbf * Lbf;

    public static Interval Forces(double least, double? most) => Between(N(least), most is { } m ? N(m) : null);

    public static Interval Between(double least, double? most)
    {
        var interval = new Interval { Least = least };
        if (most is { } m)
        {
            interval.Most = m;
            interval.Quantile05 = least + ((m - least) * 0.1);
            interval.Median = least + ((m - least) * 0.5);
            interval.Quantile95 = least + ((m - least) * 0.9);
        }

        return interval;
    }

    public static ForceBand Band(double low, double likely, double high) =>
        new() { Low = N(low), Likely = N(likely), High = N(high) };

    public static Installation Installation() => new()
    {
        DisplayName = "Heron, invented trim tab",
        LoadCases =
        {
            new LoadCase { DisplayName = "raise", Direction = Direction.Pull, ForceN = N(17) },
            new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = N(7) },
        },
        InlineDevices =
        {
            new InlineDevice { DisplayName = "equaliser", CableEnd = CableEnd.Helm },
            new InlineDevice { DisplayName = "reducer at the tab", CableEnd = CableEnd.Arm },
        },
    };

    public static WeightTest Test() => new()
    {
        Installation = Installation(),
        Series =
        {
            new TestSeries
            {
                Connected = Connected.WholeChain,
                ForceUncertaintyN = N(0.5),
                Readings =
                {
                    new WeightReading { AddedN = 0, HeldN = N(35) },
                    new WeightReading { AddedN = N(10), MovedN = N(60) },
                },
            },
            new TestSeries
            {
                Connected = Connected.WholeChain,
                WeightUncertaintyN = N(0.25),
                Readings = { new WeightReading { AddedN = N(5), MovedN = N(20) } },
            },
            new TestSeries
            {
                Connected = Connected.CableAlone,
                CoilRadiusM = 10 * Inch,
                Readings = { new WeightReading { AddedN = 0, HeldN = N(3) } },
            },
        },
    };

    public static Cautions Cautions() => new()
    {
        OneLine = "Caution in one line.",
        InFull = { "The first caution in full.", "The second caution in full." },
    };

    public static DiagnoseInstallationResponse Diagnosis() => new()
    {
        SeriesEstimates =
        {
            new SeriesEstimate
            {
                DisplayName = "everything connected",
                Connected = Connected.WholeChain,
                LoadCase = "raise",
                Direction = Direction.Pull,
                LinePossible = true,
                Shape = SeriesShape.Straight,
                Weaknesses = { SeriesWeakness.TwoWeights },
                BaselineN = Forces(35, 40),
                Slope = Between(2, 3),
                FrictionlessSlope = 0.49,
                EffortIsLinear = true,
            },
            new SeriesEstimate
            {
                Connected = Connected.WholeChain,
                LoadCase = "lower",
                Direction = Direction.Push,
                LinePossible = false,
                Shape = SeriesShape.Scattered,
                LeastWideningN = N(1.3),
                OddReadings = { 1 },
                Brackets = { new Bracket { AddedN = N(5), MostN = N(20) } },
                FrictionlessSlope = 0.49,
                EffortIsLinear = true,
            },
            new SeriesEstimate
            {
                Connected = Connected.CableAlone,
                Direction = Direction.Pull,
                LinePossible = true,
                Shape = SeriesShape.CannotTell,
                Weaknesses = { SeriesWeakness.SingleReading, SeriesWeakness.OneWeight, SeriesWeakness.HeldOnly },
                BaselineN = Forces(3, null),
                Slope = Between(1, null),
                FrictionlessSlope = 1,
                EffortIsLinear = true,
            },
        },
        Verdict = DiagnosisVerdict.BetweenParts,
        NothingAtFaultProbability = 0.004,
        Suspects =
        {
            new Suspect
            {
                Kind = FaultKind.Liner,
                Probability = 0.52,
                PriorProbability = 0.2,
                ExcessN = Forces(6, 14),
                Needed = Between(0.3, 0.45),
                Reasons =
                {
                    new SuspectReason { Kind = SuspectReasonKind.FrictionAboveBand },
                    new SuspectReason { Kind = SuspectReasonKind.ExcessGrows, SeriesNumber = 1 },
                },
            },
            new Suspect
            {
                Kind = FaultKind.InlineDevice,
                InlineDevice = "reducer at the tab",
                Probability = 0.31,
                PriorProbability = 0.15,
                ExcessN = Forces(5, null),
                Needed = Between(0.4, 0.6),
                NeededForceN = Forces(8, 15),
                Reasons = { new SuspectReason { Kind = SuspectReasonKind.NotTestedApart } },
            },
            new Suspect
            {
                Kind = FaultKind.Stop,
                Probability = 0,
                PriorProbability = 0.05,
                Reasons = { new SuspectReason { Kind = SuspectReasonKind.RuledOut } },
            },
        },
        PartShares =
        {
            Share(ChainPart.UsefulLoad, "", 8, 8, 0.49, false),
            Share(ChainPart.Arm, "", 1, 3, 0.1, false),
            Share(ChainPart.InlineDevice, "reducer at the tab", 2, 8, 0.4, false),
            Share(ChainPart.Cable, "", 12, 22, 1.2, true),
            Share(ChainPart.InlineDevice, "equaliser", 0, 1, 0, false),
            Share(ChainPart.Helm, "", 1, 2, 0.1, false),
        },
        EffortLoadCase = "raise",
        EffortN = Forces(35, 40),
        CableBehaviour = new CableBehaviour
        {
            BehavingFriction = Between(0.25, 0.4),
            SoundFriction = new Band { Low = 0.12, Likely = 0.17, High = 0.25 },
            SoundFrictionBasis = SoundFrictionBasis.Stated,
            Verdict = FrictionVerdict.AboveBand,
            ExtraBendRad = Between(1, 3),
            FrictionOfPossibleChains = Between(0.15, 0.5),
        },
        NextTests =
        {
            new NextTest
            {
                Connected = Connected.InlineDeviceAlone,
                InlineDevice = "reducer at the tab",
                HangN = { 0, N(10) },
                StartWithN = { 0, N(5) },
                StopAtN = N(50),
                SuspectsInQuestionNow = 2.9,
                SuspectsInQuestionAfter = 1.3,
                ExcessSpreadNowN = N(6),
                ExcessSpreadAfterN = N(2),
                Outcomes =
                {
                    new TestOutcome { ToN = N(15), Probability = 0.6, LeadingFault = FaultKind.Liner, LeadingProbability = 0.8 },
                    new TestOutcome
                    {
                        FromN = N(15),
                        ToN = N(20),
                        Probability = 0.1,
                        NothingAtFault = true,
                        LeadingProbability = 0.4,
                    },
                    new TestOutcome
                    {
                        FromN = N(20),
                        Probability = 0.3,
                        LeadingFault = FaultKind.InlineDevice,
                        InlineDevice = "reducer at the tab",
                        LeadingProbability = 0.95,
                    },
                },
            },
            new NextTest
            {
                Connected = Connected.CableAlone,
                Direction = Direction.Pull,
                CoilRadiusM = 12 * Inch,
                CoilAngleRad = Math.Tau,
                HangN = { N(10) },
                SuspectsInQuestionNow = 2.9,
                SuspectsInQuestionAfter = 1.9,
            },
        },
        PriorStatements =
        {
            new PriorStatement { Probability = 0.45 },
            new PriorStatement { Kind = FaultKind.Liner, Probability = 0.2, SeverityFrom = 1.5, SeverityTo = 4 },
            new PriorStatement
            {
                Kind = FaultKind.InlineDevice,
                InlineDevice = "reducer at the tab",
                Probability = 0.15,
                SeverityFrom = 0.3,
                SeverityTo = 0.8,
                ForceFromN = N(2),
                ForceToN = N(20),
            },
        },
        SoundTolerance = WhatSoundPartsMayBe(),
        ConsideredChainCount = 5000,
        PossibleChainCount = 140,
        Assumptions = { new Assumption { Kind = AssumptionKind.HelmFriction } },
        Cautions = Cautions(),
        WeightStepN = N(5),
    };

    public static VerifyCableResponse Proof() => new()
    {
        Grade = "grades/onyx",
        CaseProofs =
        {
            new CaseProof
            {
                LoadCase = "raise",
                Direction = Direction.Pull,
                BeforeN = Forces(34, 38),
                PromisedN = Band(17, 19, 22),
                AfterN = Forces(18, 23),
                Verdict = PromiseVerdict.MayBeKept,
                SavedN = Forces(11, 20),
                PromisedSavedN = new SavedBand { Low = N(12), Likely = N(17), High = N(21) },
            },
            new CaseProof
            {
                LoadCase = "lower",
                Direction = Direction.Push,
                BeforeN = Forces(15, 16),
                PromisedN = Band(8, 9, 11),
                AfterN = Forces(8.5, 10.5),
                Verdict = PromiseVerdict.Kept,
                SavedN = Forces(4.5, 7.5),
                PromisedSavedN = new SavedBand { Low = N(4), Likely = N(6.5), High = N(8) },
            },
        },
        Verdict = PromiseVerdict.MayBeKept,
        Cost = new Money { CurrencyCode = "USD", Units = 231, Nanos = 400_000_000 },
        CostWasPaid = true,
        SavedN = Forces(11, 20),
        LeastCostPerNewtonSaved = new Money { CurrencyCode = "USD", Units = 2, Nanos = 600_000_000 },
        MiddleCostPerNewtonSaved = new Money { CurrencyCode = "USD", Units = 3, Nanos = 400_000_000 },
        MostCostPerNewtonSaved = new Money { CurrencyCode = "USD", Units = 4, Nanos = 700_000_000 },
        CableBehaviour = new CableBehaviour
        {
            BehavingFriction = Between(0.05, 0.12),
            SoundFriction = new Band { Low = 0.06, Likely = 0.09, High = 0.14 },
            SoundFrictionBasis = SoundFrictionBasis.Grade,
            Verdict = FrictionVerdict.MayBeInBand,
            ExtraBendRad = Between(0, 0.5),
        },
        BeforeEstimates = { Diagnosis().SeriesEstimates },
        AfterEstimates = { Diagnosis().SeriesEstimates },
        Assumptions = { new Assumption { Kind = AssumptionKind.GradeCoefficients, GradeCount = 1 } },
        Cautions = Cautions(),
    };

    public static PlanWeightTestResponse Plan() => new()
    {
        PlannedSeries =
        {
            new PlannedSeries
            {
                LoadCase = "raise",
                Direction = Direction.Pull,
                Steps =
                {
                    new PlannedStep { AddedN = 0, PredictedEffortN = Band(30, 34.7, 42), StartWithN = N(25) },
                    new PlannedStep { AddedN = N(10), PredictedEffortN = Band(48, 55, 66), StartWithN = N(45) },
                },
                PredictedSlope = new ForceBand { Low = 1.8, Likely = 2.04, High = 2.4 },
                FrictionlessSlope = 0.49,
                ExpectedSlopeWidth = 0.8,
                HeaviestReason = HeaviestReason.Effort,
            },
            new PlannedSeries
            {
                LoadCase = "lower",
                Direction = Direction.Push,
                Steps = { new PlannedStep { AddedN = 0, PredictedEffortN = new ForceBand { Low = N(12) }, StartWithN = 0 } },
                PredictedSlope = new ForceBand { Low = 1.8 },
                FrictionlessSlope = 0.49,
                ExpectedSlopeWidth = 1.5,
                HeaviestReason = HeaviestReason.LockUp,
            },
        },
        WeightStepN = N(5),
        Assumptions = { new Assumption { Kind = AssumptionKind.RouteWobble, RouteWobbleRadPerM = 0.05 } },
        Cautions = Cautions(),
    };

    private static PartShare Share(ChainPart part, string device, double least, double most, double slope, bool alone) => new()
    {
        Part = part,
        InlineDevice = device,
        BaselineN = Forces(least, most),
        Slope = Between(slope, slope * 1.2),
        TestedAlone = alone,
    };

    /// <summary>What is taken of sound parts.</summary>
    public static SoundTolerance WhatSoundPartsMayBe() => new()
    {
        LossFrom = 0.5,
        LossTo = 1.5,
        LoadFrom = 0.9,
        LoadTo = 1.1,
        StatedFrictionFrom = 0.8,
        StatedFrictionTo = 1.25,
        ModelError = 0.02,
        TwoFaultsProbability = 0.1,
    };
}
