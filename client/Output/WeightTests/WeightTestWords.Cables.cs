using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <content>What a cable does, and whether it is what was promised.</content>
internal static partial class WeightTestWords
{
    /// <summary>The friction that the cable behaves with against that of a sound one, in a sentence.</summary>
    public static string Friction(CableBehaviour cable)
    {
        if (Behaving(cable) is not { } behaving)
        {
            string why = cable.Verdict == FrictionVerdict.NoFrictionExplains
                ? "No friction from 0 to 1 in the cable gives every reading with the other parts sound: something else is at "
                    + "fault, or more than one thing, or the readings contradict each other."
                : "The readings do not say what friction the cable behaves with: no series had the cable in it, or any friction "
                    + "gives them.";
            return why + Sound(cable, " A sound cable has ");
        }

        string compared = cable.Verdict switch
        {
            FrictionVerdict.InBand => "as a sound cable does",
            FrictionVerdict.MayBeInBand => "which may be that of a sound cable: the readings do not settle it",
            FrictionVerdict.AboveBand => "more than a sound cable has",
            FrictionVerdict.BelowBand => "less than a sound cable has: look at what the file says of loads, radii and route",
            FrictionVerdict.NoFrictionExplains => "which does not give every reading",
            _ => Unknown,
        };
        string most = behaving.HasMost ? $"at most {Figures.Ratio(behaving.Most)}" : "no upper bound";
        return "With every other part within what a sound one may be, the cable behaves with a friction of at least "
            + $"{Figures.Ratio(behaving.Least)} and {most}, {compared}{Sound(cable, "; a sound one has ", ".")}";
    }

    /// <summary>The friction that the cable behaves with; null where the readings say nothing of it.</summary>
    public static Interval? Behaving(CableBehaviour? cable) =>
        cable?.BehavingFriction is { } friction && (friction.Least > 0 || friction.HasMost) ? friction : null;

    /// <summary>The bend that would have to be hidden for a sound cable to behave so, in a sentence; empty where it is not known,
    /// or none need be.</summary>
    public static string ExtraBend(CableBehaviour cable) =>
        cable is { Verdict: FrictionVerdict.AboveBand, ExtraBendRad: { } bend }
            ? "A sound cable would behave so with "
                + (bend.HasMost ? Bend(bend) : $"at least {Figures.Angle(bend.Least)}")
                + " of bend hidden in the route, spread as its bends are"
                + (bend.HasMost ? "." : "; there is no upper bound.")
            : "";

    /// <summary>What a proof amounts to, in one sentence that a boat owner understands.</summary>
    public static string Verdict(VerifyCableResponse proof)
    {
        string grade = GradeName.ToId(proof.Grade);
        return proof.Verdict switch
        {
            PromiseVerdict.Better =>
                $"Better than promised: all that the readings allow is less than {grade} was predicted to take.",
            PromiseVerdict.Kept => $"The promise was kept: {grade} takes what it was predicted to.",
            PromiseVerdict.MayBeKept =>
                $"The promise was kept as far as the readings tell: they allow what {grade} was predicted to take, and other "
                    + "efforts too.",
            PromiseVerdict.Worse =>
                $"The promise was not kept: all that the readings allow is more than {grade} was predicted to take. Look at how "
                    + "it was laid and at the other parts.",
            PromiseVerdict.CannotTell => $"The readings do not say whether {grade} does what was promised.",
            _ => "This client is older than the server and has no words for its verdict.",
        };
    }

    /// <summary>Whether a promise was kept.</summary>
    public static string Promise(PromiseVerdict verdict) => verdict switch
    {
        PromiseVerdict.Better => "better than promised",
        PromiseVerdict.Kept => "kept",
        PromiseVerdict.MayBeKept => "kept, as far as the readings tell",
        PromiseVerdict.Worse => "not kept",
        PromiseVerdict.CannotTell => "cannot tell",
        _ => Unknown,
    };

    private static string Sound(CableBehaviour cable, string before, string otherwise = "") => cable.SoundFriction is { } sound
        ? before + FrictionWords.Of(sound) + cable.SoundFrictionBasis switch
        {
            SoundFrictionBasis.Grade => ", from its grade.",
            SoundFrictionBasis.Stated => ", as stated for the present cable.",
            SoundFrictionBasis.Assumed => ", assumed for any sound cable.",
            _ => $", from {Unknown}.",
        }
        : otherwise;
}
