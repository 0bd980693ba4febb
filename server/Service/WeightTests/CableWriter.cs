using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Service.Grades;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes what a cable does.</summary>
internal static class CableWriter
{
    /// <summary>Writes it.</summary>
    /// <param name="cable">What the cable does.</param>
    /// <param name="test">The test that says so.</param>
    public static V1.CableBehaviour Write(CableBehaviour cable, WeightTest test) => new()
    {
        BehavingFriction = IntervalWriter.Write(cable.Friction),
        SoundFriction = GradeWriter.Write(cable.SoundFriction),
        SoundFrictionBasis = test switch
        {
            { Fitted: not null } => V1.SoundFrictionBasis.Grade,
            { Installation.Present.Friction: not null } => V1.SoundFrictionBasis.Stated,
            _ => V1.SoundFrictionBasis.Assumed,
        },
        Verdict = cable.Verdict switch
        {
            FrictionVerdict.InBand => V1.FrictionVerdict.InBand,
            FrictionVerdict.MayBeInBand => V1.FrictionVerdict.MayBeInBand,
            FrictionVerdict.AboveBand => V1.FrictionVerdict.AboveBand,
            FrictionVerdict.BelowBand => V1.FrictionVerdict.BelowBand,
            _ => V1.FrictionVerdict.NoFrictionExplains,
        },
        ExtraBendRad = IntervalWriter.Write(cable.ExtraBendRad),
        FrictionOfPossibleChains = IntervalWriter.Write(cable.FrictionOfPossibleChains),
    };
}
