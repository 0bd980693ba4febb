using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>What a cable gives under load: the integral of F ds/EA along it, with F of <see cref="CableMarch"/> at each point and EA of core
/// and conduit in series; in push, where the core snakes, r^2 F/(4 EI) more for each metre (the helix shortens it: Lubinski, Althouse
/// and Logan 1962).</summary>
/// <remarks>In closed form for every section. Linear elasticity; the conduit's ends are fixed.</remarks>
public static class Stretch
{
    /// <summary>The stretch, m; infinite where the cable locks in push.</summary>
    /// <param name="route">The route.</param>
    /// <param name="cable">The coefficients.</param>
    /// <param name="direction">Pull or push.</param>
    /// <param name="outputN">Force at the output end, N, finite, >= 0.</param>
    /// <param name="axialStiffnessN">EA, N; null where it is not known: then only what a snaking core shortens by is counted.</param>
    public static double OfM(
        CableRoute route, in CableCoefficients cable, Direction direction, double outputN, double? axialStiffnessN)
    {
        var sum = new Sum(1 / (axialStiffnessN ?? double.PositiveInfinity));
        double inputN = CableMarch.InputForceN(route, cable, direction, outputN, ref sum);
        return double.IsFinite(inputN) ? sum.StretchM : double.PositiveInfinity;
    }

    private struct Sum(double perNewton) : ISectionVisitor
    {
        public double StretchM { get; private set; }

        public void Visit(in Section section, double outputN)
        {
            if (double.IsFinite(outputN))
            {
                (double forceNm, double shorteningM) = section.Integrals(outputN);
                StretchM += (forceNm * perNewton) + shorteningM;
            }
        }
    }
}
