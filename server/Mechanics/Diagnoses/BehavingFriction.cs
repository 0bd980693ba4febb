using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>The friction coefficient that a cable behaves with, if every other part is as sound as described.</summary>
/// <remarks>The force of every set-up rises with the friction and with how stiff each other part is. So a friction is too high
/// where even the easiest sound parts would take more than what moved, and too low where even the stiffest would take less than
/// what held. No friction outside the interval gives every reading.</remarks>
public static class BehavingFriction
{
    /// <summary>The interval over all series that have the cable in them.</summary>
    /// <returns>Null where no friction from 0 to 1 gives every reading. The most is null where nothing bounds it.</returns>
    public static (double Least, double? Most)? Of(DescribedChain described, IEnumerable<TestedSeries> series)
    {
        (double least, double most) = (0, double.PositiveInfinity);
        foreach (TestedSeries one in series.Where(s => s.SetUp.HasCable))
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

        double ForceN(SetUpForce force, BandEnd others, double friction, double addedN) =>
            force.N(SoundChain.At(described, others, friction), addedN);
    }
}
