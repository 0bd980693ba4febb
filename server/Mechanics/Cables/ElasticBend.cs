using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Cables;

/// <summary>Drag of a core that resists bending, at a place where the route's curvature changes.</summary>
/// <remarks>A rod of stiffness EI in a tube of diametral clearance C whose curvature changes by dk touches at two points,
/// l = sqrt(24 C/dk) apart, with EI dk/l each: D = 2 mu EI dk/l. Small-slope beam theory, derived for this project and
/// checked against a numerical obstacle problem. Exact with no load and at most that under load; charged in full.
/// For a lone bend shorter than l, D is scaled by its length over l (an approximation, +100 % to -20 %).</remarks>
internal static class ElasticBend
{
    /// <summary>D, N.</summary>
    public static double DragN(double friction, Core core, CurvatureChange change)
    {
        if (change.ChangePerM == 0)
        {
            return 0;
        }

        double contactsApartM = Math.Sqrt(24 * core.DiametralClearanceM / change.ChangePerM);
        double full = 2 * friction * core.BendingStiffnessNm2 * change.ChangePerM / contactsApartM;
        return full * Math.Min(1, change.LoneBendLengthM / contactsApartM);
    }

    /// <summary>What of D is the route's: D = mu EI/sqrt(C) times the factor times min(1, shortness/sqrt(C)).</summary>
    /// <returns>The factor, m^-1.5, and the shortness, m^0.5; infinite where it is not that of a lone bend.</returns>
    public static (double Factor, double Shortness) OnRoute(CurvatureChange change)
    {
        double root = Math.Sqrt(change.ChangePerM / 24);
        return (2 * change.ChangePerM * root, change.LoneBendLengthM * root);
    }

    /// <summary>The radius under which a solid round steel core of a given stiffness takes a permanent set, m.</summary>
    /// <remarks>d E/(2 sigma), with d from EI = E pi d^4/64, E = 200 GPa and sigma = 1000 MPa (both from memory, typical of
    /// hard-drawn wire).</remarks>
    public static double SetRadiusM(double bendingStiffnessNm2)
    {
        const double ElasticModulusPa = 200e9;
        const double YieldStressPa = 1000e6;
        double diameterM = Math.Pow(64 * bendingStiffnessNm2 / (Math.PI * ElasticModulusPa), 0.25);
        return diameterM * ElasticModulusPa / (2 * YieldStressPa);
    }
}
