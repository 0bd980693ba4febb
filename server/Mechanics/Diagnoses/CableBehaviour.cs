using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>How the friction that a cable behaves with compares with that of a sound one.</summary>
public enum FrictionVerdict
{
    /// <summary>All of it within the band.</summary>
    InBand,

    /// <summary>Some of it within the band, or no series had the cable in it.</summary>
    MayBeInBand,

    /// <summary>All of it above the band.</summary>
    AboveBand,

    /// <summary>All of it below the band.</summary>
    BelowBand,

    /// <summary>No friction gives every reading.</summary>
    NoFrictionExplains,
}

/// <summary>What the cable itself does.</summary>
/// <param name="Friction">The friction it behaves with on its route, as <see cref="BehavingFriction"/> bounds it; null where that does.</param>
/// <param name="SoundFriction">That of a sound one.</param>
/// <param name="Verdict">How the two compare.</param>
/// <param name="ExtraBendRad">The bend that a sound cable would have to have hidden in its route, rad; null where that is not known,
/// or where a sound one may have no friction at all.</param>
/// <param name="FrictionOfPossibleChains">The friction over all possible chains; null where there is none.</param>
public sealed record CableBehaviour(
    Spread? Friction, Band SoundFriction, FrictionVerdict Verdict, Spread? ExtraBendRad, Spread? FrictionOfPossibleChains)
{
    /// <summary>What the cable of a diagnosis does.</summary>
    public static CableBehaviour Of(Diagnosis diagnosis)
    {
        Band sound = Prior.SoundFriction(diagnosis.Described.Cable.Friction);
        Spread? friction = FrictionOf(diagnosis);
        return new CableBehaviour(
            friction,
            sound,
            Judge(diagnosis, friction, sound),
            friction is { } found && sound.Low > 0 ? ExtraBend(found, sound, diagnosis.Described.AngleRad) : null,
            diagnosis.FrictionOnRoute());
    }

    // Within the bounds the possible chains say what is likely.
    private static Spread? FrictionOf(Diagnosis diagnosis)
    {
        if (BehavingFriction.Of(diagnosis.Described, diagnosis.Series) is not (var least, var most))
        {
            return null;
        }

        return most is { } mostFriction && diagnosis.FrictionOnRoute(othersSound: true)?.Quantiles is var (at05, median, at95)
            ? new Spread(least, most, (Within(at05), Within(median), Within(at95)))
            : new Spread(least, most, null);

        double Within(double value) => Math.Clamp(value, least, mostFriction);
    }

    private static FrictionVerdict Judge(Diagnosis diagnosis, Spread? friction, Band sound) => friction switch
    {
        null when !diagnosis.Series.Any(s => s.SetUp.HasCable) => FrictionVerdict.MayBeInBand,
        null => FrictionVerdict.NoFrictionExplains,
        { } f when f.Least > sound.High => FrictionVerdict.AboveBand,
        { Most: { } most } when most < sound.Low => FrictionVerdict.BelowBand,
        { Most: { } most } f when f.Least >= sound.Low && most <= sound.High => FrictionVerdict.InBand,
        _ => FrictionVerdict.MayBeInBand,
    };

    // Friction times angle is what is felt, so as much more of the one is as much more of the other.
    private static Spread ExtraBend(Spread friction, Band sound, double angleRad)
    {
        return new Spread(
            More(friction.Least, sound.High),
            friction.Most is { } most ? More(most, sound.Low) : null,
            friction.Quantiles is var (at05, median, at95)
                ? (More(at05, sound.Likely), More(median, sound.Likely), More(at95, sound.Likely))
                : null);

        double More(double behaving, double ofSound) => Math.Max(0, ((behaving / ofSound) - 1) * angleRad);
    }
}
