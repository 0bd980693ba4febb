using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>The friction coefficient that a cable behaves with, if every other part is as sound as described.</summary>
/// <remarks>The force of every set-up rises with the friction and with how stiff each other part is. So a friction is too high
/// where even the easiest sound parts would take more than what moved, and too low where even the stiffest would take less than
/// what held. No friction outside the interval gives every reading. It is an outer bound: the other parts are let differ from reading
/// to reading.</remarks>
public static class BehavingFriction
{
    /// <summary>The interval over all series that have the cable in them.</summary>
    /// <returns>Null where no series has the cable in it, where no straight line passes through one that must be straight, and where no
    /// friction from 0 to 1 gives every reading. The most is null where nothing bounds it.</returns>
    public static (double Least, double? Most)? Of(DescribedChain described, IEnumerable<TestedSeries> series)
    {
        (double least, double most) = (0, double.PositiveInfinity);
        TestedSeries[] withCable = [.. series.Where(s => s.SetUp.HasCable)];
        if (withCable.Length == 0 || withCable.Any(s => !IsPossible(described, s)))
        {
            return null;
        }

        foreach (TestedSeries one in withCable)
        {
            var force = new SetUpForce(described.Chain, one.SetUp);
            foreach (WeightReading reading in one.Series.Readings)
            {
                double movedN = one.Series.MostN(reading);
                double heldN = one.Series.LeastN(reading);
                double? highest = Monotone.LastTrue(
                    mu => ForceN(force, BandEnd.Low, mu, one.Series.LeastAddedN(reading)) <= movedN, 0, Limits.Friction.Most);
                double lowest = Monotone.LastTrue(
                    mu => ForceN(force, BandEnd.High, mu, one.Series.MostAddedN(reading)) < heldN, 0, Limits.Friction.Most) ?? 0;
                if (highest is null || double.IsInfinity(lowest))
                {
                    return null;
                }

                (least, most) = (Math.Max(least, lowest), Math.Min(most, highest.Value));
            }
        }

        return least > most ? null : (least, double.IsFinite(most) ? most : null);

        static bool IsPossible(DescribedChain described, TestedSeries one) => !SoundChain.IsLinear(described, one.SetUp)
            || PossibleLines.Of(one.Series, SoundChain.LeastSlope(described, one.SetUp)) is not null;

        double ForceN(SetUpForce force, BandEnd others, double friction, double addedN) =>
            force.N(SoundChain.At(described, others, friction), addedN);
    }
}
