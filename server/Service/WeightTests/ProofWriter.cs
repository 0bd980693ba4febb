using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes a proof.</summary>
internal static class ProofWriter
{
    /// <summary>Writes all of it but what is around it: assumptions, cautions, the catalogue's revision.</summary>
    /// <param name="proof">The proof.</param>
    /// <param name="tests">The tests it comes from.</param>
    /// <param name="cable">What the new cable does.</param>
    /// <param name="request">The tests as they were sent.</param>
    public static V1.VerifyCableResponse Write(
        Proof proof, TestPair tests, CableBehaviour cable, V1.VerifyCableRequest request) => new()
    {
        Grade = ResourceNames.Grades.Of(tests.Grade.Id),
        CaseProofs = { proof.Cases.Select(Write) },
        Verdict = Write(proof.Verdict),
        Cost = MoneyMapping.Write(proof.Cost),
        CostWasPaid = tests.After.Paid is not null,
        SavedN = IntervalWriter.Write(proof.SavedN),
        LeastCostPerNewtonSaved = Write(proof.CostPerNewton.AtMost),
        MostCostPerNewtonSaved = Write(proof.CostPerNewton.AtLeast),
        MiddleCostPerNewtonSaved = Write(proof.CostPerNewton.AtMiddle),
        CableBehaviour = CableWriter.Write(cable, tests.After),
        BeforeEstimates = { EstimateWriter.Write(tests.Before.Described, request.Before.Series, tests.Before.Series) },
        AfterEstimates = { EstimateWriter.Write(tests.After.Described, request.After.Series, tests.After.Series) },
    };

    private static V1.CaseProof Write(CaseProof proof) => new()
    {
        LoadCase = proof.Load.Name,
        Direction = ScoreWriter.Write(proof.Load.Direction),
        BeforeN = IntervalWriter.Write(proof.BeforeN),
        PromisedN = proof.PromisedN is { } promised ? ScoreWriter.Write(promised) : null,
        AfterN = IntervalWriter.Write(proof.AfterN),
        Verdict = Write(proof.Verdict),
        SavedN = IntervalWriter.Write(proof.SavedN),
        PromisedSavedN = proof.PromisedSavedN is { } saving ? ScoreWriter.Write(saving) : null,
    };

    private static V1.PromiseVerdict Write(PromiseVerdict verdict) => verdict switch
    {
        PromiseVerdict.Better => V1.PromiseVerdict.Better,
        PromiseVerdict.Kept => V1.PromiseVerdict.Kept,
        PromiseVerdict.MayBeKept => V1.PromiseVerdict.MayBeKept,
        PromiseVerdict.Worse => V1.PromiseVerdict.Worse,
        _ => V1.PromiseVerdict.CannotTell,
    };

    private static Google.Type.Money? Write(Money? money) => money is { } amount ? MoneyMapping.Write(amount) : null;
}
