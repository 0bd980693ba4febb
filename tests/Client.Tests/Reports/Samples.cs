using CableCatalog.V1;
using static CableCatalog.Client.Tests.Reports.Lines;
using Money = Google.Type.Money;

namespace CableCatalog.Client.Tests.Reports;

/// <summary>Answers as the service might give them, built by hand. Every figure in them is invented.</summary>
internal static class Samples
{
    /// <summary>Something wrong between the cable and a reducer: three series, one that never moved among them.</summary>
    public static (DiagnoseInstallationResponse Diagnosis, WeightTest Test) Diagnosis()
    {
        var test = new WeightTest { Installation = Installation(), FittedGrade = "grades/marble" };
        var diagnosis = new DiagnoseInstallationResponse
        {
            Verdict = DiagnosisVerdict.BetweenParts,
            NothingAtFaultProbability = 0.004,
            EffortLoadCase = "raise",
            EffortN = Of(35.2, 35.9, 37.6, 39.3, 39.9),
            ConsideredChainCount = 20000,
            PossibleChainCount = 1312,
            WeightStepN = 5 * LbfN,
            CatalogRevision = 41,
            Cautions = Cautions(),
        };
        Add(diagnosis, test, WholeChain(0, 5));
        Add(diagnosis, test, CableCoiled());
        Add(diagnosis, test, HelmHeld());
        AddShares(diagnosis);
        AddSuspects(diagnosis);
        AddNextTests(diagnosis);
        AddPriors(diagnosis);
        diagnosis.CableBehaviour = new CableBehaviour
        {
            BehavingFriction = Of(0.23, 0.25, 0.28, 0.31, 0.33, unit: 1),
            SoundFriction = new Band { Low = 0.1, Likely = 0.14, High = 0.18 },
            SoundFrictionBasis = SoundFrictionBasis.Grade,
            Verdict = FrictionVerdict.AboveBand,
            ExtraBendRad = Of(2.6, 3.1, 4.4, 6.2, 7.1, unit: 1),
            FrictionOfPossibleChains = Of(0.11, 0.13, 0.22, 0.31, 0.34, unit: 1),
        };
        AddAssumptions(diagnosis.Assumptions);
        return (diagnosis, test);
    }

    /// <summary>A new cable that keeps its promise in one load case and may keep it in the other.</summary>
    public static (VerifyCableResponse Proof, WeightTest Before, WeightTest After) Proof()
    {
        var before = new WeightTest { Installation = Installation() };
        var after = new WeightTest { Installation = Installation(), FittedGrade = "grades/heron" };
        var proof = new VerifyCableResponse
        {
            Grade = "grades/heron",
            Verdict = PromiseVerdict.MayBeKept,
            Cost = Usd(231, 400_000_000),
            CostWasPaid = true,
            SavedN = Of(13.1, 14.2, 16.3, 18.5, 19.4),
            LeastCostPerNewtonSaved = Usd(2, 680_000_000),
            MiddleCostPerNewtonSaved = Usd(3, 190_000_000),
            MostCostPerNewtonSaved = Usd(3, 970_000_000),
            CableBehaviour = new CableBehaviour
            {
                BehavingFriction = Of(0.06, 0.07, 0.09, 0.11, 0.12, unit: 1),
                SoundFriction = new Band { Low = 0.06, Likely = 0.08, High = 0.11 },
                SoundFrictionBasis = SoundFrictionBasis.Grade,
                Verdict = FrictionVerdict.MayBeInBand,
                ExtraBendRad = Of(0, 0.1, 0.4, 1.1, 1.6, unit: 1),
            },
            Cautions = Cautions(),
            CatalogRevision = 42,
        };
        Add(proof.BeforeEstimates, before, WholeChain(0, 5));
        Add(proof.BeforeEstimates, before, Lowering(12, 14));
        Add(proof.BeforeEstimates, before, CableCoiled());
        Add(proof.AfterEstimates, after, WholeChain(-16.3, 2.5));
        Add(proof.AfterEstimates, after, Lowering(7, 9));
        proof.CaseProofs.Add(new CaseProof
        {
            LoadCase = "raise",
            Direction = Direction.Pull,
            BeforeN = Of(35.2, 35.9, 37.6, 39.3, 39.9),
            PromisedN = Band(18.4, 21.2, 25.3),
            AfterN = Of(20.1, 20.5, 21.3, 22.1, 22.4),
            Verdict = PromiseVerdict.Kept,
            SavedN = Of(13.1, 14.2, 16.3, 18.5, 19.4),
            PromisedSavedN = new SavedBand { Low = 10.6 * LbfN, Likely = 16.4 * LbfN, High = 21.1 * LbfN },
        });
        proof.CaseProofs.Add(new CaseProof
        {
            LoadCase = "lower",
            Direction = Direction.Push,
            BeforeN = Of(12, 12.2, 13, 13.8, 14),
            PromisedN = Band(6.1, 7, 8.6),
            AfterN = Of(7, 7.2, 8, 8.8, 9),
            Verdict = PromiseVerdict.MayBeKept,
            SavedN = Of(3, 3.6, 5, 6.4, 7),
            PromisedSavedN = new SavedBand { Low = 3.6 * LbfN, Likely = 6 * LbfN, High = 7.8 * LbfN },
        });
        AddAssumptions(proof.Assumptions);
        return (proof, before, after);
    }

    /// <summary>The installation of both.</summary>
    public static Installation Installation() => new()
    {
        DisplayName = "Plover, deflector (invented)",
        EffortLimitN = 25 * LbfN,
        PresentCable = new PresentCable { Grade = "grades/marble" },
        LoadCases =
        {
            new LoadCase { DisplayName = "raise", Direction = Direction.Pull, ForceN = 40 * LbfN },
            new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 0 },
        },
        InlineDevices =
        {
            new InlineDevice
            {
                DisplayName = "reducer at the deflector",
                CableEnd = CableEnd.Arm,
                ForceRatio = 0.5,
                Efficiency = 0.9,
            },
        },
    };

    /// <summary>A whole chain in pull; its readings moved by an offset, each a bracket of a width, in lbf.</summary>
    public static (TestSeries, SeriesEstimate) WholeChain(double offset, double width)
    {
        var series = new TestSeries { DisplayName = "everything connected", Connected = Connected.WholeChain };
        SeriesEstimate estimate = Estimate(series, "raise", Direction.Pull, 0.52);
        double slope = offset < 0 ? 0.66 : 0.94;
        foreach (double added in new[] { 0.0, 10, 20, 20, 40 })
        {
            double middle = 37.6 + offset + (slope * added);
            Read(series, estimate, added, middle - (width / 2), middle + (width / 2));
        }

        (double low, double high) = (37.6 + offset - (width * 0.45), 37.6 + offset + (width * 0.45));
        estimate.BaselineN = Of(low, low + (0.1 * width), 37.6 + offset, high - (0.1 * width), high);
        estimate.Slope = Of(slope - 0.08, slope - 0.05, slope, slope + 0.05, slope + 0.08, unit: 1);
        Possible(estimate, 50, (low, slope - 0.03), (high, slope + 0.03));
        Predicted(
            estimate,
            50,
            offset < 0 ? Band(18.4, 21.2, 25.3) : Band(22.9, 25.7, 29.9),
            offset < 0 ? Band(0.6, 0.66, 0.74) : Band(0.66, 0.72, 0.8));
        return (series, estimate);
    }

    private static (TestSeries, SeriesEstimate) Lowering(double held, double moved)
    {
        var series = new TestSeries { Connected = Connected.WholeChain };
        SeriesEstimate estimate = Estimate(series, "lower", Direction.Push, 0.52);
        estimate.Shape = SeriesShape.CannotTell;
        estimate.EffortIsLinear = false;
        estimate.Weaknesses.Add(SeriesWeakness.OneWeight);
        Read(series, estimate, 0, held, moved);
        double middle = (held + moved) / 2;
        estimate.BaselineN = Of(held, held + 0.2, middle, moved - 0.2, moved);
        estimate.Slope = AtLeast(0.52, unit: 1);
        foreach (double x in new[] { 0.0, 5, 10 })
        {
            Interval effort = x == 0 ? estimate.BaselineN.Clone() : AtLeast(held + (0.52 * x));
            estimate.Band.Add(new EffortAtWeight { AddedN = x * LbfN, EffortN = effort });
        }

        Predicted(estimate, 10, Band(6.1, 7, 8.6), Band(0.58, 0.65, 0.75));
        return (series, estimate);
    }

    private static (TestSeries, SeriesEstimate) CableCoiled()
    {
        var series = new TestSeries { Connected = Connected.CableAlone, CoilRadiusM = 0.254, CoilAngleRad = Math.Tau };
        SeriesEstimate estimate = Estimate(series, "", Direction.Pull, 1);
        estimate.Weaknesses.Add(SeriesWeakness.TwoWeights);
        Read(series, estimate, 0, 6, 8);
        Read(series, estimate, 10, 26, 34);
        estimate.BaselineN = Of(6, 6.2, 7, 7.8, 8);
        estimate.Slope = Of(1.8, 2, 2.3, 2.6, 2.8, unit: 1);
        Possible(estimate, 14, (6, 2), (8, 2.6));
        Predicted(estimate, 14, Band(2, 3, 4.6), Band(1.9, 2.4, 3.1));
        return (series, estimate);
    }

    private static (TestSeries, SeriesEstimate) HelmHeld()
    {
        var series = new TestSeries { DisplayName = "lever only", Connected = Connected.HelmAlone };
        SeriesEstimate estimate = Estimate(series, "", Direction.Unspecified, 0.125);
        estimate.Shape = SeriesShape.CannotTell;
        estimate.Weaknesses.Add(SeriesWeakness.HeldOnly);
        Read(series, estimate, 0, 1, double.NaN);
        Read(series, estimate, 20, 3, double.NaN);
        estimate.BaselineN = AtLeast(0);
        estimate.Slope = AtLeast(0.125, unit: 1);
        foreach (double x in new[] { 0.0, 10, 20, 25 })
        {
            estimate.Band.Add(new EffortAtWeight { AddedN = x * LbfN, EffortN = AtLeast(1 + (0.125 * x)) });
        }

        Predicted(estimate, 25, Band(0.5, 0.5, 0.5), Band(0.13, 0.13, 0.13));
        return (series, estimate);
    }

    private static SeriesEstimate Estimate(TestSeries series, string loadCase, Direction direction, double frictionless) => new()
    {
        DisplayName = series.DisplayName,
        Connected = series.Connected,
        LoadCase = loadCase,
        Direction = direction,
        LinePossible = true,
        EffortIsLinear = true,
        Shape = SeriesShape.Straight,
        FrictionlessSlope = frictionless,
    };

    private static void Add(DiagnoseInstallationResponse diagnosis, WeightTest test, (TestSeries, SeriesEstimate) made) =>
        Add(diagnosis.SeriesEstimates, test, made);

    private static void Add(IList<SeriesEstimate> estimates, WeightTest test, (TestSeries Series, SeriesEstimate Estimate) made)
    {
        test.Series.Add(made.Series);
        estimates.Add(made.Estimate);
    }

    private static void AddShares(DiagnoseInstallationResponse diagnosis)
    {
        void Add(ChainPart part, string device, Interval baseline, Interval slope, bool alone) => diagnosis.PartShares.Add(
            new PartShare { Part = part, InlineDevice = device, BaselineN = baseline, Slope = slope, TestedAlone = alone });
        Add(ChainPart.UsefulLoad, "", Of(20.8, 20.8, 20.8, 20.8, 20.8), Of(0.52, 0.52, 0.52, 0.52, 0.52, unit: 1), false);
        Add(ChainPart.Arm, "", Of(0.9, 1, 1.1, 1.6, 4.9), Of(0.02, 0.02, 0.03, 0.05, 0.1, unit: 1), false);
        Add(
            ChainPart.InlineDevice,
            "reducer at the deflector",
            Of(1.8, 2, 3.7, 7.4, 9.1),
            Of(0.04, 0.05, 0.08, 0.15, 0.2, unit: 1),
            false);
        Add(ChainPart.Cable, "", Of(3.1, 4.4, 9.8, 12.6, 13.2), Of(0.12, 0.15, 0.25, 0.32, 0.36, unit: 1), true);
        Add(ChainPart.Helm, "", Of(1.6, 1.7, 1.9, 2.3, 4.2), Of(0.03, 0.03, 0.04, 0.05, 0.06, unit: 1), true);
    }

    private static void AddSuspects(DiagnoseInstallationResponse diagnosis)
    {
        diagnosis.Suspects.Add(new Suspect
        {
            Kind = FaultKind.Liner,
            Probability = 0.61,
            PriorProbability = 0.12,
            ExcessN = Of(4.2, 5.1, 7.9, 10.6, 11.2),
            Needed = Of(0.23, 0.25, 0.28, 0.31, 0.33, unit: 1),
            Reasons =
            {
                new SuspectReason { Kind = SuspectReasonKind.FrictionAboveBand },
                new SuspectReason { Kind = SuspectReasonKind.ExcessGrows, SeriesNumber = 1 },
                new SuspectReason
                {
                    Kind = SuspectReasonKind.AsSoundAlone,
                    SeriesNumber = 2,
                    MeasuredN = Of(26, 27, 30, 33, 34),
                    SoundN = Band(21, 27, 35.6),
                    WeightN = 10 * LbfN,
                },
            },
        });
        diagnosis.Suspects.Add(new Suspect
        {
            Kind = FaultKind.InlineDevice,
            InlineDevice = "reducer at the deflector",
            Probability = 0.34,
            PriorProbability = 0.08,
            ExcessN = Of(2.1, 2.6, 4.8, 6.9, 7.3),
            Needed = Of(0.55, 0.58, 0.67, 0.76, 0.79, unit: 1),
            NeededForceN = Of(4, 5, 8, 11, 12),
            Reasons = { new SuspectReason { Kind = SuspectReasonKind.NotTestedApart } },
        });
        diagnosis.Suspects.Add(new Suspect
        {
            Kind = FaultKind.Bends,
            Probability = 0.07,
            PriorProbability = 0.05,
            ExcessN = Of(3.9, 4.1, 6.6, 9.8, 10.4),
            Needed = Of(2.6, 3.1, 4.4, 6.2, 7.1, unit: 1),
            Reasons =
            {
                new SuspectReason
                {
                    Kind = SuspectReasonKind.TightBend,
                    TightBend = new TightBend { BendNumber = 2, RadiusM = 0.1016, MinBendRadiusM = 0.2032 },
                },
            },
        });
        diagnosis.Suspects.Add(new Suspect
        {
            Kind = FaultKind.Stop,
            Probability = 0,
            PriorProbability = 0.04,
            Reasons = { new SuspectReason { Kind = SuspectReasonKind.RuledOut } },
        });
    }

    private static void AddNextTests(DiagnoseInstallationResponse diagnosis)
    {
        TestOutcome Outcome(double from, double? to, double probability, FaultKind leading, double then)
        {
            var outcome = new TestOutcome
            {
                FromN = from * LbfN,
                Probability = probability,
                LeadingFault = leading,
                InlineDevice = leading == FaultKind.InlineDevice ? "reducer at the deflector" : "",
                NothingAtFault = leading == FaultKind.Unspecified,
                LeadingProbability = then,
            };
            if (to is { } most)
            {
                outcome.ToN = most * LbfN;
            }

            return outcome;
        }

        diagnosis.NextTests.Add(new NextTest
        {
            Connected = Connected.InlineDeviceAlone,
            InlineDevice = "reducer at the deflector",
            HangN = { 0, 40 * LbfN },
            StartWithN = { 0, 15 * LbfN },
            StopAtN = 50 * LbfN,
            SuspectsInQuestionNow = 2.4,
            SuspectsInQuestionAfter = 1.3,
            ExcessSpreadNowN = 4.1 * LbfN,
            ExcessSpreadAfterN = 1.6 * LbfN,
            Outcomes =
            {
                Outcome(0, 25, 0.63, FaultKind.Liner, 0.93),
                Outcome(25, 30, 0.14, FaultKind.InlineDevice, 0.71),
                Outcome(30, null, 0.23, FaultKind.InlineDevice, 0.97),
            },
        });
        diagnosis.NextTests.Add(new NextTest
        {
            Connected = Connected.CableOffAtArm,
            Direction = Direction.Pull,
            HangN = { 20 * LbfN },
            SuspectsInQuestionNow = 2.4,
            SuspectsInQuestionAfter = 1.7,
            ExcessSpreadNowN = 4.1 * LbfN,
            ExcessSpreadAfterN = 2.2 * LbfN,
        });
    }

    private static void AddPriors(DiagnoseInstallationResponse diagnosis)
    {
        diagnosis.PriorStatements.Add(new PriorStatement { Probability = 0.5 });
        diagnosis.PriorStatements.Add(
            new PriorStatement { Kind = FaultKind.Liner, Probability = 0.12, SeverityFrom = 1.2, SeverityTo = 4 });
        diagnosis.PriorStatements.Add(new PriorStatement
        {
            Kind = FaultKind.InlineDevice,
            InlineDevice = "reducer at the deflector",
            Probability = 0.08,
            SeverityFrom = 0.3,
            SeverityTo = 0.85,
            ForceFromN = 2 * LbfN,
            ForceToN = 20 * LbfN,
        });
        diagnosis.PriorStatements.Add(
            new PriorStatement { Kind = FaultKind.Bends, Probability = 0.05, SeverityFrom = 0.5, SeverityTo = 9 });
        diagnosis.SoundTolerance = Output.Invented.WhatSoundPartsMayBe();
    }

    private static void AddAssumptions(IList<Assumption> assumptions)
    {
        assumptions.Add(new Assumption { Kind = AssumptionKind.GradeCoefficients, GradeCount = 1 });
        assumptions.Add(new Assumption { Kind = AssumptionKind.RouteWobble, RouteWobbleRadPerM = 0.05 });
        assumptions.Add(new Assumption { Kind = AssumptionKind.ArmFriction });
    }

    private static Cautions Cautions() => new()
    {
        OneLine = "Caution: a guide for choosing and testing, not a warranty; move steering and engine controls only when safe.",
        InFull =
        {
            "Hang weights only where nobody stands below them, and stop when anything creaks or bends.",
            "With the cable off, a control may move by itself: hold it or block it.",
        },
    };

    private static Money Usd(long units, int nanos) => new() { CurrencyCode = "USD", Units = units, Nanos = nanos };
}
