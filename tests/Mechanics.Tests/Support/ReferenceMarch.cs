using System.Numerics;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using MathNet.Numerics;
using MathNet.Numerics.OdeSolvers;

namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>The march along a cable a second time, from its differential equation alone: no closed form.</summary>
/// <remarks>MathNet.Numerics integrates dF/ds = mu (kappa + phi) F + w with Runge and Kutta's fourth-order rule; where the
/// core snakes, dF/ds gains mu r F^2/(4 EI) and u = 1/F is integrated instead, du/ds = -(a + k u + w u^2), which is smooth
/// up to and through the place where F runs away: there u reaches 0. The length to the onset is a quadrature of ds/dF.
/// </remarks>
internal static class ReferenceMarch
{
    private const int Points = 4001;

    private sealed record Piece(double LengthM, double CurvaturePerM, double? TurnRad)
    {
        public bool IsBend => CurvaturePerM > 0;

        public Complex? Curvature => IsBend && TurnRad is null ? null : Complex.FromPolarCoordinates(CurvaturePerM, TurnRad ?? 0);
    }

    /// <summary>Force at the helm end, N; infinite where the integration runs away.</summary>
    public static double InputForceN(
        IEnumerable<RouteElement> elementsFromHelm, CableCoefficients cable, Direction direction, double outputN)
    {
        List<Piece> pieces = Joined(elementsFromHelm);
        double forceN = outputN + cable.SealDragN + JointDragN(pieces, pieces.Count, cable);
        for (int i = pieces.Count - 1; i >= 0 && double.IsFinite(forceN); i--)
        {
            forceN = Through(pieces[i], cable, direction, forceN) + JointDragN(pieces, i, cable);
        }

        return forceN + cable.SealDragN;
    }

    // What touches and has the same curvature vector is one piece.
    private static List<Piece> Joined(IEnumerable<RouteElement> elements)
    {
        var pieces = new List<Piece>();
        foreach (RouteElement element in elements)
        {
            Piece next = element is Bend bend
                ? new Piece(bend.AngleRad * bend.RadiusM, 1 / bend.RadiusM, bend.TurnRad)
                : new Piece(element.LengthM, 0, null);
            if (pieces.Count > 0
                && pieces[^1].Curvature is { } before
                && next.Curvature is { } after
                && (before - after).Magnitude < 1e-9)
            {
                next = pieces[^1] with { LengthM = pieces[^1].LengthM + next.LengthM };
                pieces.RemoveAt(pieces.Count - 1);
            }

            pieces.Add(next);
        }

        return pieces;
    }

    // D = 2 mu EI dk/l, l = sqrt(24 C/dk), at the helm side of piece i; scaled by R theta/l at a lone bend shorter than l.
    private static double JointDragN(List<Piece> pieces, int i, CableCoefficients cable)
    {
        if (cable.Core is not { } core)
        {
            return 0;
        }

        var straight = new Piece(0, 0, null);
        Piece before = i > 0 ? pieces[i - 1] : straight;
        Piece after = i < pieces.Count ? pieces[i] : straight;
        double changePerM = before.Curvature is { } a && after.Curvature is { } b
            ? (a - b).Magnitude
            : before.CurvaturePerM + after.CurvaturePerM;
        if (changePerM == 0)
        {
            return 0;
        }

        double apartM = Math.Sqrt(24 * core.DiametralClearanceM / changePerM);
        double dragN = 2 * cable.Friction * core.BendingStiffnessNm2 * changePerM / apartM;
        Piece? lone = before.IsBend && !after.IsBend && !(i > 1 && pieces[i - 2].IsBend) ? before
            : after.IsBend && !before.IsBend && !(i + 1 < pieces.Count && pieces[i + 1].IsBend) ? after
            : null;
        return lone is not null && lone.LengthM < apartM ? dragN * lone.LengthM / apartM : dragN;
    }

    private static double Through(Piece piece, CableCoefficients cable, Direction direction, double outputN)
    {
        double mu = cable.Friction;
        double w = cable.RunningDragNPerM;
        double k = mu * (piece.CurvaturePerM + cable.WobbleRadPerM);
        double plainN = Last(outputN, piece.LengthM, f => (k * f) + w);
        if (direction == Direction.Pull || cable.Core is not { } core)
        {
            return plainN;
        }

        double ei = core.BendingStiffnessNm2;
        double r = core.DiametralClearanceM / 2;
        double onsetN = piece.IsBend
            ? 4 * ei * piece.CurvaturePerM / r
            : 8 * Math.Pow(Math.PI, 2) * ei / Math.Pow(piece.LengthM, 2);
        if (outputN < onsetN && plainN <= onsetN)
        {
            return plainN;
        }

        double plainM = outputN < onsetN ? Integrate.GaussKronrod(f => 1 / ((k * f) + w), outputN, onsetN, 1e-12) : 0;
        double a = mu * r / (4 * ei);
        double u = Last(1 / Math.Max(outputN, onsetN), piece.LengthM - plainM, u => -(a + (k * u) + (w * u * u)));
        return u > 0 ? 1 / u : double.PositiveInfinity;
    }

    private static double Last(double start, double lengthM, Func<double, double> rate) =>
        RungeKutta.FourthOrder(start, 0, lengthM, Points, (_, y) => rate(y))[^1];
}
