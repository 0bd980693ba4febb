using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;
using CableCatalog.Service.WeightTests;

namespace CableCatalog.Service.Scores;

/// <summary>Writes scores of the catalogue as those of the contract.</summary>
internal static class ScoreWriter
{
    /// <summary>Writes the sums over the route of an installation.</summary>
    public static V1.RouteFigures WriteRoute(Installation installation) => WriteRoute(
        installation.Chain.Route, installation.NeededLengthM, Effort.CableTravelM(installation.Chain));

    /// <summary>Writes the sums over a route.</summary>
    public static V1.RouteFigures WriteRoute(CableRoute route, double neededLengthM, double? cableTravelM)
    {
        var written = new V1.RouteFigures
        {
            LengthM = route.LengthM,
            TotalBendRad = route.TotalBendRad,
            NeededLengthM = neededLengthM,
        };
        IfFinite(route.TightestRadiusM, radiusM => written.TightestRadiusM = radiusM);

        if (cableTravelM is { } travelM)
        {
            written.CableTravelM = travelM;
        }

        return written;
    }

    /// <summary>Writes the present cable.</summary>
    public static V1.PresentCableScore Write(Baseline baseline)
    {
        var written = new V1.PresentCableScore
        {
            Grade = baseline.Grade is { } grade ? ResourceNames.Grades.Of(grade.Id) : "",
            CaseEfforts = { baseline.Cases.Select(Write) },
            Basis = Write(baseline.Basis),
            Friction = baseline.Friction is { } friction ? GradeWriter.Write(friction) : null,
            WorstEffortN = Write(baseline.WorstEffortN),
            LimitVerdict = Write(baseline.Limit),
            EffortIsLowerBound = baseline.Fit is { EffortIsLowerBound: true },
        };
        if (baseline.Cases.Count > 0)
        {
            written.WorstLoadCase = WorstLoadCase(baseline.Cases);
        }

        if (baseline.Explainable is var (leastN, mostN))
        {
            written.LeastExplainableEffortN = leastN;
            IfFinite(mostN, finiteN => written.MostExplainableEffortN = finiteN);
        }

        if (baseline.Fit is { } fit)
        {
            written.FitProblems.AddRange(fit.Problems.Select(Write));
            written.FitNotes.AddRange(fit.Notes.Select(Write));
        }

        return written;
    }

    /// <summary>Writes the present cable, or one just like it, along another route; of an unexplained one only what it
    /// is.</summary>
    public static V1.PresentCableScore Write(PresentAlong along, Baseline baseline)
    {
        var written = new V1.PresentCableScore
        {
            Grade = baseline.Grade is { } grade ? ResourceNames.Grades.Of(grade.Id) : "",
            CaseEfforts = { along.Cases.Select(Write) },
            Basis = Write(baseline.Basis),
            Friction = baseline.Friction is { } friction ? GradeWriter.Write(friction) : null,
            WorstEffortN = along.WorstEffortN is { } worstN ? Write(worstN) : null,
            WorstLoadCase = along.Cases.Count > 0 ? WorstLoadCase(along.Cases) : "",
            LimitVerdict = along.Limit is { } limit ? Write(limit) : V1.LimitVerdict.Unspecified,
            EffortIsLowerBound = along.Fit is { EffortIsLowerBound: true },
        };
        if (along.Fit is { } fit)
        {
            written.FitProblems.AddRange(fit.Problems.Select(Write));
            written.FitNotes.AddRange(fit.Notes.Select(Write));
        }

        return written;
    }

    /// <summary>Writes one grade.</summary>
    public static V1.GradeScore Write(GradeScore score)
    {
        var written = new V1.GradeScore
        {
            Grade = ResourceNames.Grades.Of(score.Grade.Id),
            DisplayName = score.Grade.Grade.DisplayName,
            Fits = score.Fits,
            FitProblems = { score.Fit.Problems.Select(Write) },
            FitNotes = { score.Fit.Notes.Select(Write) },
            CaseEfforts = { score.Cases.Select(Write) },
            WorstLoadCase = WorstLoadCase(score.Cases),
            WorstEffortN = Write(score.WorstEffortN),
            EffortIsLowerBound = score.Fit.EffortIsLowerBound,
            LimitVerdict = Write(score.Limit),
            SavingVerdict = Verdict(score),
            Price = score.Price is { } price ? MoneyMapping.Write(price) : null,
            CostPerNewtonSaved = score.CostPerNewton is { } cost ? MoneyMapping.Write(cost) : null,
            SavedN = score.Saving is { } saving ? Write(saving) : null,
            CoefficientBasis = GradeWriter.Write(score.Grade.Grade.CoefficientBasis),
            Friction = GradeWriter.Write(score.Grade.Grade.Bands.Friction),
        };
        if (score.Fit.OrderLengthM is { } orderM)
        {
            written.OrderLengthM = orderM;
        }

        return written;
    }

    /// <summary>Writes the advice.</summary>
    public static V1.BestBuy WriteBestBuy(InstallationScore score) => new()
    {
        Verdict = Write(score.BestBuy.Verdict),
        GradeScore = score.ToBuy is { } toBuy ? Write(toBuy) : null,
        Diagnosis = score.Baseline.Diagnosis is { } diagnosis ? DiagnosisWriter.WriteFinding(diagnosis) : null,
    };

    /// <summary>Writes where the effort goes.</summary>
    public static V1.EffortBreakdown Write(IReadOnlyList<EffortRow> rows)
    {
        IEnumerable<EffortRow> finite = rows.Where(row => double.IsFinite(row.EffortN));
        var written = new V1.EffortBreakdown
        {
            Rows = { finite.Select(row => new V1.EffortRow { Part = Write(row.Part), EffortN = row.EffortN }) },
        };
        if (rows.All(row => double.IsFinite(row.EffortN)))
        {
            written.TotalEffortN = rows.Sum(row => row.EffortN);
        }

        return written;
    }

    /// <summary>Writes the effort in a load case.</summary>
    public static V1.CaseEffort Write(CaseEffort effort)
    {
        var written = new V1.CaseEffort
        {
            LoadCase = effort.Load.Name,
            Direction = Write(effort.Load.Direction),
            EffortN = Write(effort.EffortN),
            CoreForceN = Write(effort.CoreForceN),
            SweepEffort = effort.Sweep is { } sweep
                ? new V1.SweepEffort
                {
                    StartN = sweep.StartN,
                    EndN = sweep.EndN,
                    WorstN = sweep.WorstN,
                    WorstAtRad = sweep.WorstAtRad,
                }
                : null,
        };
        if (effort.LockUpLoadN is { } lockUpN)
        {
            written.LockUpLoadN = lockUpN;
        }

        return written;
    }

    /// <summary>The name of the worst load case by likely effort.</summary>
    public static string WorstLoadCase(IReadOnlyList<CaseEffort> cases) =>
        cases.Where(c => c.Load.Governs).MaxBy(c => c.EffortN.LikelyN)!.Load.Name;

    /// <summary>Writes a force; beyond any bound, because a cable locks, it is left out.</summary>
    public static V1.ForceBand Write(ForceBand band)
    {
        var written = new V1.ForceBand();
        IfFinite(band.LowN, lowN => written.Low = lowN);
        IfFinite(band.LikelyN, likelyN => written.Likely = likelyN);
        IfFinite(band.HighN, highN => written.High = highN);
        return written;
    }

    /// <summary>Writes a saving; without limit, because the present cable locks, it is left out.</summary>
    public static V1.SavedBand Write(Saving saving)
    {
        var written = new V1.SavedBand();
        IfFinite(saving.LowN, lowN => written.Low = lowN);
        IfFinite(saving.LikelyN, likelyN => written.Likely = likelyN);
        IfFinite(saving.HighN, highN => written.High = highN);
        return written;
    }

    // What is beyond any bound, because a cable locks, is left out.
    private static void IfFinite(double value, Action<double> write)
    {
        if (double.IsFinite(value))
        {
            write(value);
        }
    }

    private static V1.SavingVerdict Verdict(GradeScore score) =>
        score.Saving is { } saving ? Write(saving.Verdict)
        : !score.Fits ? V1.SavingVerdict.DoesNotFit
        : V1.SavingVerdict.BaselineUnexplained;

    /// <summary>Writes what a saving amounts to.</summary>
    public static V1.SavingVerdict Write(SavingVerdict verdict) => verdict switch
    {
        SavingVerdict.Saves => V1.SavingVerdict.Saves,
        SavingVerdict.MaySaveNothing => V1.SavingVerdict.MaySaveNothing,
        SavingVerdict.SavesNothing => V1.SavingVerdict.SavesNothing,
        _ => V1.SavingVerdict.FreesALockedCable,
    };

    /// <summary>Writes a kind of advice.</summary>
    public static V1.BuyVerdict Write(BuyVerdict verdict) => verdict switch
    {
        BuyVerdict.CheapestThatMeetsLimit => V1.BuyVerdict.CheapestThatMeetsLimit,
        BuyVerdict.LeastCostPerForceSaved => V1.BuyVerdict.LeastCostPerForceSaved,
        BuyVerdict.KeepPresentCable => V1.BuyVerdict.KeepPresentCable,
        BuyVerdict.NoneMeetsLimit => V1.BuyVerdict.NoneMeetsLimit,
        BuyVerdict.NoneSaves => V1.BuyVerdict.NoneSaves,
        BuyVerdict.NoneFits => V1.BuyVerdict.NoneFits,
        BuyVerdict.ReplaceUnfitPresentCable => V1.BuyVerdict.ReplaceUnfitPresentCable,
        BuyVerdict.RepairFirst => V1.BuyVerdict.RepairFirst,
        BuyVerdict.TestFirst => V1.BuyVerdict.TestFirst,
        _ => V1.BuyVerdict.DiagnoseFirst,
    };

    private static V1.BaselineBasis Write(BaselineBasis basis) => basis switch
    {
        BaselineBasis.Predicted => V1.BaselineBasis.Predicted,
        BaselineBasis.Measured => V1.BaselineBasis.Measured,
        BaselineBasis.Diagnosed => V1.BaselineBasis.Diagnosed,
        _ => V1.BaselineBasis.Unexplained,
    };

    /// <summary>Writes how an effort stands to the owner's limit.</summary>
    public static V1.LimitVerdict Write(LimitVerdict verdict) => verdict switch
    {
        LimitVerdict.Meets => V1.LimitVerdict.Meets,
        LimitVerdict.LikelyMeets => V1.LimitVerdict.LikelyMeets,
        LimitVerdict.MayMeet => V1.LimitVerdict.MayMeet,
        LimitVerdict.Misses => V1.LimitVerdict.Misses,
        _ => V1.LimitVerdict.NoLimit,
    };

    /// <summary>Writes why a cable does not fit.</summary>
    public static V1.FitProblem Write(FitProblem problem) => problem switch
    {
        FitProblem.TightBend bend => new V1.FitProblem
        {
            TightBend = WriteTightBend(bend.BendNumber, bend.RadiusM, bend.MinBendRadiusM),
        },
        FitProblem.LengthNotMade length => new V1.FitProblem
        {
            LengthNotMade = new V1.LengthNotMade { NeededLengthM = length.NeededM, LongestLengthM = length.LongestM },
        },
        FitProblem.TravelTooShort travel => new V1.FitProblem
        {
            TravelTooShort = new V1.TravelTooShort { NeededTravelM = travel.NeededM, LongestTravelM = travel.LongestM },
        },
        FitProblem.RatedLoadExceeded rated => new V1.FitProblem
        {
            RatedLoadExceeded = WriteRated(rated.LoadCase, rated.Direction, rated.CoreForceN, rated.RatedN),
        },
        FitProblem.LocksInPush locks => new V1.FitProblem
        {
            LocksInPush = new V1.LocksInPush
            {
                LoadCase = locks.LoadCase,
                LoadN = locks.LoadN,
                LockUpLoadN = locks.LockUpLoadN,
            },
        },
        _ => throw new InvalidOperationException($"no word in the contract for {problem}"),
    };

    /// <summary>Writes what is worth knowing of a cable.</summary>
    public static V1.FitNote Write(FitNote note) => note switch
    {
        FitNote.CoreWouldSet set => new V1.FitNote
        {
            CoreWouldSet = new V1.CoreWouldSet
            {
                BendNumber = set.BendNumber,
                RadiusM = set.RadiusM,
                SetRadiusM = set.SetRadiusM,
            },
        },
        FitNote.LongerThanNeeded longer => new V1.FitNote
        {
            LongerThanNeeded = new V1.LongerThanNeeded { SlackM = longer.SlackM },
        },
        FitNote.MayExceedRatedLoad rated => new V1.FitNote
        {
            MayExceedRatedLoad = WriteRated(rated.LoadCase, rated.Direction, rated.CoreForceN, rated.RatedN),
        },
        FitNote.NotChecked notChecked => new V1.FitNote
        {
            NotChecked = new V1.NotChecked
            {
                Check = notChecked.Check switch
                {
                    FitCheckKind.Travel => V1.FitCheck.Travel,
                    FitCheckKind.RatedPull => V1.FitCheck.RatedPull,
                    FitCheckKind.RatedPush => V1.FitCheck.RatedPush,
                    FitCheckKind.CoreStiffness => V1.FitCheck.CoreStiffness,
                    FitCheckKind.Drags => V1.FitCheck.Drags,
                    _ => V1.FitCheck.LockUp,
                },
            },
        },
        _ => throw new InvalidOperationException($"no word in the contract for {note}"),
    };

    /// <summary>Writes a bend that is too tight.</summary>
    public static V1.TightBend WriteTightBend(int bendNumber, double radiusM, double leastM) =>
        new() { BendNumber = bendNumber, RadiusM = radiusM, MinBendRadiusM = leastM };

    private static V1.RatedLoadExceeded WriteRated(
        string loadCase, Direction direction, double coreForceN, double ratedN) => new()
    {
        LoadCase = loadCase,
        Direction = Write(direction),
        CoreForceN = coreForceN,
        RatedLoadN = ratedN,
    };

    /// <summary>Writes a direction.</summary>
    public static V1.Direction Write(Direction direction) =>
        direction == Direction.Push ? V1.Direction.Push : V1.Direction.Pull;

    private static V1.EffortPart Write(EffortPart part) => part switch
    {
        EffortPart.UsefulLoad => V1.EffortPart.UsefulLoad,
        EffortPart.ArmFriction => V1.EffortPart.ArmFriction,
        EffortPart.Bends => V1.EffortPart.Bends,
        EffortPart.Wobble => V1.EffortPart.Wobble,
        EffortPart.Drags => V1.EffortPart.Drags,
        EffortPart.CoreStiffness => V1.EffortPart.CoreStiffness,
        EffortPart.PushBuckling => V1.EffortPart.PushBuckling,
        EffortPart.InlineDevices => V1.EffortPart.InlineDevices,
        _ => V1.EffortPart.Helm,
    };
}
