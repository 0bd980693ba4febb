using CableCatalog.Catalog.Options;
using CableCatalog.Economics.Advising;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Frontiers;
using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Scores;
using CableCatalog.Service.WeightTests;

namespace CableCatalog.Service.Options;

/// <summary>Writes weighed options as the contract has them. What is beyond any bound is left out.</summary>
internal static class OptionWriter
{
    /// <summary>Writes a study; the catalogue's revision is the caller's to add.</summary>
    public static V1.WeighOptionsResponse Write(OptionStudy study, WeighingRequest asked)
    {
        WeighingTerms terms = asked.Terms;
        var written = new V1.WeighOptionsResponse
        {
            RouteFigures = ScoreWriter.WriteRoute(asked.Installation),
            PresentCable = ScoreWriter.Write(study.Baseline),
            Options = { study.Options.Select((_, i) => Write(study, i)) },
            Steps = { study.Steps.Select(step => Write(step, terms.Currency)) },
            Advice = WriteAdvice(study, terms),
            CurrencyCode = terms.Currency,
            Confidence = terms.Confidence,
            GradesNotOffered =
            {
                study.Options
                    .Where(option => option.Problems.OfType<OptionProblem.NotOffered>().Any())
                    .Select(option => ResourceNames.Grades.Of(option.Parts.Grade!.Id))
                    .Distinct(),
            },
            Assumptions = { study.AssumptionsFor(asked.Installation, asked.Grades, terms).Select(AssumptionWriter.Write) },
            Cautions = Cautions.All(),
        };
        IfAny(study.CheapestThatWorks, i => written.CheapestThatWorks = i);
        IfAny(study.BestReroute, i => written.BestReroute = i);
        return written;
    }

    /// <summary>Extra cost for each extra newton, to nine decimals; null where it costs no more or saves no more.</summary>
    public static Google.Type.Money? RatioOf(Money extraCost, double? extraSavedN) =>
        extraCost.Amount > 0 && extraSavedN is >= Saving.LeastN and { } savedN
            ? MoneyMapping.Write(PerNewton((double)extraCost.Amount / savedN, extraCost.Currency))
            : null;

    /// <summary>What an option likely saves more than another, N; null where one of the two frees a cable that locks.</summary>
    public static double? ExtraSavedN(WeighedOption option, WeighedOption other) =>
        option.Saving is { } saving && other.Saving is { } otherSaving
            && double.IsFinite(saving.LikelyN - otherSaving.LikelyN)
            ? saving.LikelyN - otherSaving.LikelyN
            : option.Saving is not null && other.Saving is not null && !other.Parts.KeepsAll
                ? other.WorstEffortN.LikelyN - option.WorstEffortN.LikelyN
                : null;

    private static V1.WeighedOption Write(OptionStudy study, int index)
    {
        WeighedOption option = study.Options[index];
        OptionParts parts = option.Parts;
        var written = new V1.WeighedOption
        {
            KeepsAll = parts.KeepsAll,
            Route = parts.Route.Name,
            Grade = parts.Grade is { } grade ? ResourceNames.Grades.Of(grade.Id) : "",
            GradeDisplayName = parts.Grade?.Grade.DisplayName ?? "",
            Changes = { parts.Changes.Select(change => change.Name) },
            Problems = { option.Problems.Select(Write) },
            FitNotes = { option.Notes.Select(ScoreWriter.Write) },
            CaseEfforts = { option.Cases.Select(ScoreWriter.Write) },
            WorstLoadCase = ScoreWriter.WorstLoadCase(option.Cases),
            WorstEffortN = ScoreWriter.Write(option.WorstEffortN),
            LimitVerdict = ScoreWriter.Write(option.Limit),
            Bill = option.Bill is { } bill ? Write(bill) : null,
            SavingVerdict = Verdict(option),
            Standing = study.Places[index]?.Standing switch
            {
                FrontierStanding.OnFrontier => V1.FrontierStanding.OnFrontier,
                FrontierStanding.Dominated => V1.FrontierStanding.Dominated,
                FrontierStanding.ExtendedlyDominated => V1.FrontierStanding.ExtendedlyDominated,
                _ => V1.FrontierStanding.Unspecified,
            },
            Comparisons = { Comparisons(study, index) },
        };
        IfAny(option.OrderLengthM, orderM => written.OrderLengthM = orderM);
        IfAny(study.Places[index]?.By, by => written.DominatedBy = by);
        IfAny(study.Places[index]?.AndBy, by => written.DominatedWith = by);
        IfAny(study.Sure[index]?.MeetChance, chance => written.MeetChance = chance);
        IfAny(study.Sure[index]?.ExpectedSavedN, savedN => written.ExpectedSavedN = savedN);
        IfAny(study.Sure[index]?.EffortWithinN, withinN => written.EffortWithinN = withinN);
        if (option is { Works: true, Saving: { } saving })
        {
            written.SavedN = ScoreWriter.Write(saving);
            written.CostPerNewtonSaved = saving.CostPerNewton(option.Bill!.Total) is { } cost && !parts.KeepsAll
                ? MoneyMapping.Write(cost)
                : null;
        }

        return written;
    }

    private static V1.SavingVerdict Verdict(WeighedOption option) => option switch
    {
        { Works: false } => V1.SavingVerdict.DoesNotFit,
        { Saving: { } saving } => ScoreWriter.Write(saving.Verdict),
        _ => V1.SavingVerdict.Unspecified,
    };

    private static IEnumerable<V1.OptionComparison> Comparisons(OptionStudy study, int index)
    {
        if (study.Places[index] is null)
        {
            yield break;
        }

        (V1.ComparedWith With, int? Other)[] others =
        [
            (V1.ComparedWith.Present, study.MayKeep ? 0 : null),
            (V1.ComparedWith.CheapestThatWorks, study.CheapestThatWorks),
            (V1.ComparedWith.Reroute, study.BestReroute),
        ];
        foreach ((V1.ComparedWith with, int? other) in others)
        {
            if (other is not { } place || place == index)
            {
                continue;
            }

            Money extra = study.Options[index].Bill!.Total + (study.Options[place].Bill!.Total * -1);
            double? savedN = ExtraSavedN(study.Options[index], study.Options[place]);
            var written = new V1.OptionComparison
            {
                With = with,
                Option = place,
                ExtraCost = MoneyMapping.Write(extra),
                ExtraCostPerNewton = RatioOf(extra, savedN),
            };
            IfAny(savedN, n => written.ExtraSavedN = n);
            yield return written;
        }
    }

    private static V1.OptionProblem Write(OptionProblem problem) => problem switch
    {
        OptionProblem.DoesNotFit fit => new V1.OptionProblem { Fit = ScoreWriter.Write(fit.Problem) },
        OptionProblem.PresentMayLock => new V1.OptionProblem { PresentMayLock = new V1.PresentMayLock() },
        OptionProblem.PresentTooShort shorter => new V1.OptionProblem { PresentTooShortM = shorter.ShortByM },
        OptionProblem.ArmFallsShort shorter => new V1.OptionProblem { ArmFallsShortRad = shorter.ShortByRad },
        OptionProblem.ArmOverRuns => new V1.OptionProblem { ArmOverRuns = new V1.ArmOverRuns() },
        OptionProblem.MotionUnknown motion => new V1.OptionProblem { MotionUnknownRatio = motion.TurnsAsFar },
        OptionProblem.NotOffered => new V1.OptionProblem { NotOffered = new V1.NotOffered() },
        OptionProblem.MayLockUnseen => new V1.OptionProblem { MayLockUnseen = new V1.MayLockUnseen() },
        _ => throw new InvalidOperationException($"no word in the contract for {problem}"),
    };

    private static V1.Bill Write(Bill bill) => new()
    {
        Lines =
        {
            bill.Lines.Select(line => new V1.BillLine
            {
                Item = line.Item switch
                {
                    BillItem.Cable => V1.BillItem.Cable,
                    BillItem.Fittings => V1.BillItem.Fittings,
                    BillItem.Parts => V1.BillItem.Parts,
                    _ => V1.BillItem.Labour,
                },
                About = line.About,
                Amount = MoneyMapping.Write(line.Amount),
            }),
        },
        Net = MoneyMapping.Write(bill.Net),
        Tax = MoneyMapping.Write(bill.Tax),
        Total = MoneyMapping.Write(bill.Total),
    };

    private static V1.FrontierStep Write(SureStep sure, string currency)
    {
        FrontierStep step = sure.Step;
        var written = new V1.FrontierStep
        {
            FromOption = step.From,
            ToOption = step.To,
            ExtraCost = MoneyMapping.Write(new Money(step.ExtraCost, currency)),
            ExtraSavedN = step.ExtraEffect,
            ExtraCostPerNewton = MoneyMapping.Write(PerNewton(step.Ratio, currency)),
            SavesMoreChance = sure.SavesMoreChance,
        };
        IfAny(sure.WorthChance, chance => written.WorthChance = chance);
        return written;
    }

    private static V1.OptionAdvice WriteAdvice(OptionStudy study, WeighingTerms terms)
    {
        var written = new V1.OptionAdvice
        {
            Verdict = study.Advice?.Verdict switch
            {
                AdviceVerdict.NothingAsked => V1.AdviceVerdict.NothingAsked,
                AdviceVerdict.Keep => V1.AdviceVerdict.Keep,
                AdviceVerdict.Take => V1.AdviceVerdict.Take,
                AdviceVerdict.MeasureFirst => V1.AdviceVerdict.MeasureFirst,
                AdviceVerdict.NoneMeetsLimit => V1.AdviceVerdict.NoneMeetsLimit,
                AdviceVerdict.NothingFits => V1.AdviceVerdict.NothingFits,
                AdviceVerdict.RepairFirst => V1.AdviceVerdict.RepairFirst,
                AdviceVerdict.TestFirst => V1.AdviceVerdict.TestFirst,
                _ => V1.AdviceVerdict.DiagnoseFirst,
            },
            BetterFrom =
            {
                study.Advice?.BetterFrom.Select(one => new V1.WorthFrom
                {
                    Option = one.Option,
                    ValuePerNewton = MoneyMapping.Write(PerNewton(one.FromValuePerNewton, terms.Currency)),
                }) ?? [],
            },
            Measuring = { study.Advice?.Answers.Select(answer => Write(answer, terms.Currency)) ?? [] },
            Diagnosis = study.Baseline.Diagnosis is { } diagnosis ? DiagnosisWriter.WriteFinding(diagnosis) : null,
            TestCost = terms.List?.TestCost is { } test ? MoneyMapping.Write(test) : null,
        };
        IfAny(study.Advice?.Option, option => written.Option = option);
        return written;
    }

    private static V1.MeasuringWorth Write(AnswerWorth<Unknown> answer, string currency) => new()
    {
        Measured = answer.Name switch
        {
            Unknown.PresentCable => V1.Measured.PresentCable,
            Unknown.Load => V1.Measured.Load,
            Unknown.Both => V1.Measured.Both,
            _ => V1.Measured.WhatIsAtFault,
        },
        AtMost = answer.AtMost is { } most ? MoneyMapping.Write(new Money((decimal)most, currency).Rounded(2)) : null,
        ChangesChoiceChance = answer.ChangesChoice,
    };

    private static Money PerNewton(double value, string currency) =>
        new Money((decimal)Math.Min(value, 1e15), currency).Rounded(9);

    private static void IfAny<T>(T? value, Action<T> set)
        where T : struct
    {
        if (value is { } given)
        {
            set(given);
        }
    }
}
