using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>From a measured effort to the friction coefficient that gives it, if all the excess is the cable's.</summary>
public static class Calibration
{
    /// <summary>The largest coefficient that is plausible for a cable; beyond it something else is at fault
    /// (common practice, no source).</summary>
    public const double MostPlausibleFriction = 0.5;

    /// <summary>The friction coefficient that gives a measured effort, or null where none from 0 to
    /// <see cref="MostPlausibleFriction"/> does: the effort is less than a cable without friction takes, or more than a
    /// plausible one explains.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="cable">The cable; its friction is ignored.</param>
    /// <param name="load">The load case that the effort was measured in.</param>
    /// <param name="measuredN">The effort, N.</param>
    /// <remarks>Effort rises with friction, so there is at most one; found by halving. Where nothing in the route rubs, every
    /// friction gives the same effort, and the answer is 0.</remarks>
    public static double? FrictionFor(Chain chain, CableCoefficients cable, LoadCase load, double measuredN)
    {
        if (!double.IsFinite(measuredN))
        {
            return null;
        }

        if (Explains(0, 1e-12))
        {
            return 0;
        }

        double? last = Monotone.LastTrue(mu => AtGripN(mu) <= measuredN, 0, MostPlausibleFriction);

        // A cable that leaps from movable to locked has no friction that gives an effort in between.
        return last is { } friction && Explains(Math.Min(friction, MostPlausibleFriction), 1e-6)
            ? Math.Min(friction, MostPlausibleFriction)
            : null;

        double AtGripN(double mu) => Effort.AtGripN(chain, cable with { Friction = mu }, load);
        bool Explains(double mu, double tolerance) => Math.Abs(AtGripN(mu) - measuredN) <= tolerance * measuredN;
    }
}
