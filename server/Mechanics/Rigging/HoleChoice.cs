using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>How a choice of holes does.</summary>
public enum HoleVerdict
{
    /// <summary>It works.</summary>
    Works,

    /// <summary>The arm falls short of what it has to turn.</summary>
    FallsShort,

    /// <summary>The arm would be taken past 90 degrees from perpendicular.</summary>
    OverRuns,

    /// <summary>The cable's longest travel is less than it would be moved.</summary>
    TravelTooLong,

    /// <summary>The core would carry more than it is rated for.</summary>
    OverRatedLoad,

    /// <summary>The cable locks in push.</summary>
    Locks,
}

/// <summary>A hole of the crank with a hole of the arm.</summary>
/// <param name="CrankHoleM">Radius of the crank's hole, m.</param>
/// <param name="ArmHoleM">Radius of the arm's hole, m.</param>
/// <param name="Verdict">How it does.</param>
/// <param name="Travel">From the crank to the arm; null where the cable locks.</param>
/// <param name="EffortN">Worst effort over the sweep and the load cases, N; null where it over-runs or locks.</param>
public sealed record HoleChoice(
    double CrankHoleM, double ArmHoleM, HoleVerdict Verdict, Travel? Travel, ForceBand? EffortN)
{
    /// <summary>Free play and stretch at the arm's hole, m; null where the cable locks.</summary>
    public double? LostM { get; private init; }

    /// <summary>Whether two radii, m, are of one hole: "3 in" written twice is, whatever the last bit says.</summary>
    public static bool IsSameHole(double aM, double bM) => Math.Abs(aM - bM) <= 1e-9 * Math.Max(aM, bM);

    /// <summary>Every hole of the crank with every hole of the arm.</summary>
    /// <param name="chain">The chain, with the holes in use.</param>
    /// <param name="swing">How its arm swings. Where it is not known how far it has to turn, it has to turn as far as with the holes
    /// in use.</param>
    /// <param name="cable">Its cable.</param>
    /// <param name="ratings">What the cable must not be asked for; null where not known.</param>
    /// <param name="loads">The load cases; at least one.</param>
    /// <param name="crankHolesM">Holes of the crank, m.</param>
    /// <param name="armHolesM">Holes of the arm, m.</param>
    /// <param name="cancellation">Gives up between two choices.</param>
    public static IReadOnlyList<HoleChoice> All(
        Chain chain,
        ArmSwing swing,
        RiggedCable cable,
        CableRatings? ratings,
        IReadOnlyList<LoadCase> loads,
        IReadOnlyList<double> crankHolesM,
        IReadOnlyList<double> armHolesM,
        CancellationToken cancellation = default)
    {
        ArmSwing asked = swing with { NeededRad = swing.NeededRad ?? Travel.Of(chain, swing, cable, loads)?.TurnedRad };
        return
        [
            .. from crankM in crankHolesM
               from armM in armHolesM
               select Tried(crankM, armM),
        ];

        HoleChoice Tried(double crankM, double armM)
        {
            cancellation.ThrowIfCancellationRequested();
            return Of(chain.Through(crankM, armM), asked, cable, ratings, loads);
        }
    }

    /// <summary>The choice to take: of those that work, that of least effort, and of equals that which loses least motion; null where
    /// none works.</summary>
    public static HoleChoice? Best(IEnumerable<HoleChoice> choices) => choices
        .Where(choice => choice.Verdict == HoleVerdict.Works)
        .OrderBy(choice => choice.EffortN!.Value.LikelyN)
        .ThenBy(choice => choice.LostM)
        .FirstOrDefault();

    private static HoleChoice Of(
        Chain chain, ArmSwing swing, RiggedCable cable, CableRatings? ratings, IReadOnlyList<LoadCase> loads)
    {
        Travel? travel = Travel.Of(chain, swing, cable, loads);
        SweepCurve?[] curves = [.. loads.Select(load => SweepCurve.Of(chain, swing, cable, load, points: 31))];
        bool isWhole = travel is not null && curves.All(curve => curve is not null);
        ForceBand? effortN = isWhole ? SweepCurve.WorstN([.. curves.Select(curve => curve!)]) : null;
        HoleVerdict verdict = travel switch
        {
            null => HoleVerdict.Locks,
            { Reach: ArmReach.OverRuns } => HoleVerdict.OverRuns,
            _ when effortN is not { } n || !double.IsFinite(n.HighN) => HoleVerdict.Locks,
            { Reach: ArmReach.FallsShort } => HoleVerdict.FallsShort,
            _ when travel.CableM > ratings?.LongestTravelM * (1 + 1e-9) => HoleVerdict.TravelTooLong,
            _ when curves.Any(curve => IsOverRated(ratings, curve!)) => HoleVerdict.OverRatedLoad,
            _ => HoleVerdict.Works,
        };
        return new HoleChoice(chain.Helm.CrankRadiusM, chain.Arm.HoleRadiusM, verdict, travel, effortN)
        {
            LostM = travel?.Lost.TotalM * Travel.ArmSideGain(chain),
        };
    }

    private static bool IsOverRated(CableRatings? ratings, SweepCurve curve)
    {
        double? ratedN = curve.Load.Direction == Direction.Pull ? ratings?.RatedPullN : ratings?.RatedPushN;
        return curve.Points.Append(curve.Worst).Any(point => point.CoreN > ratedN);
    }
}
