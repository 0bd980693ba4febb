using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Fits;

/// <summary>How a core is built.</summary>
public enum CoreConstruction
{
    /// <summary>Not stated.</summary>
    Unstated,

    /// <summary>Wires laid together.</summary>
    Stranded,

    /// <summary>One solid steel wire.</summary>
    Solid,
}

/// <summary>What a cable must not be asked for.</summary>
/// <param name="MinBendRadiusM">The least bend radius, m.</param>
/// <param name="LengthsMade">The lengths it is made in.</param>
/// <param name="RatedPullN">The most it may carry in pull, N, where known.</param>
/// <param name="RatedPushN">The most it may carry in push, N, where known.</param>
/// <param name="LongestTravelM">Its longest travel, m, where known.</param>
/// <param name="CoreConstruction">How the core is built.</param>
public sealed record CableRatings(
    double MinBendRadiusM,
    LengthsMade LengthsMade,
    double? RatedPullN,
    double? RatedPushN,
    double? LongestTravelM,
    CoreConstruction CoreConstruction);

/// <summary>Whether a cable fits an installation.</summary>
/// <param name="Problems">Why not; empty where it fits.</param>
/// <param name="Notes">What is worth knowing all the same.</param>
/// <param name="OrderLengthM">The length to order, m; null where it is not made that long.</param>
public sealed record Fit(IReadOnlyList<FitProblem> Problems, IReadOnlyList<FitNote> Notes, double? OrderLengthM)
{
    /// <summary>Whether a bend is too tight, so that computed efforts are lower bounds.</summary>
    public bool EffortIsLowerBound => Problems.Any(p => p is FitProblem.TightBend);
}

/// <summary>Checks a cable against an installation. Lock-up is judged at the high end of every coefficient, since a control
/// that jams is worse than one passed over; a rated load at the likely values, with a note where the high end exceeds it.
/// </summary>
public static class FitCheck
{
    /// <summary>What a figure may be beyond a rating of a length, as a share: one given as "8 in" on both sides passes, whatever the last
    /// bit says.</summary>
    public const double Slack = 1e-9;

    /// <summary>Makes every check.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="cases">The cable's effort in every load case.</param>
    /// <param name="neededLengthM">Route and end allowance, m.</param>
    /// <param name="cable">The cable's coefficients.</param>
    /// <param name="ratings">The cable's ratings.</param>
    public static Fit Of(
        Chain chain, IReadOnlyList<CaseEffort> cases, double neededLengthM, CableBands cable, CableRatings ratings)
    {
        var problems = new List<FitProblem>();
        var notes = new List<FitNote>();
        CheckBends(chain.Route, cable.Core, ratings, problems, notes);
        double? orderLengthM = CheckLength(neededLengthM, ratings.LengthsMade, problems, notes);
        CheckTravel(Effort.CableTravelM(chain), ratings.LongestTravelM, problems, notes);
        foreach (CaseEffort effort in cases)
        {
            CheckLoad(effort, ratings, problems, notes);
        }

        NoteUnchecked(chain.Route, cases, cable, ratings, notes);
        return new Fit(problems, notes, orderLengthM);
    }

    /// <summary>The bends of a route that are under a least radius, in order from the helm.</summary>
    /// <param name="route">The route.</param>
    /// <param name="minBendRadiusM">The least radius, m; see <see cref="Slack"/>.</param>
    public static IEnumerable<FitProblem.TightBend> TightBends(CableRoute route, double minBendRadiusM) =>
        route.Bends.Index()
            .Where(bend => bend.Item.RadiusM < minBendRadiusM * (1 - Slack))
            .Select(bend => new FitProblem.TightBend(bend.Index + 1, bend.Item.RadiusM, minBendRadiusM));

    private static void CheckBends(
        CableRoute route, Core? core, CableRatings ratings, List<FitProblem> problems, List<FitNote> notes)
    {
        double setRadiusM = core is { } known && ratings.CoreConstruction != CoreConstruction.Stranded
            ? ElasticBend.SetRadiusM(known.BendingStiffnessNm2)
            : 0;
        double tightestM = route.TightestRadiusM;
        if (tightestM < ratings.MinBendRadiusM)
        {
            problems.AddRange(TightBends(route, ratings.MinBendRadiusM));
        }

        if (tightestM < setRadiusM)
        {
            notes.AddRange(route.Bends.Index()
                .Where(bend => bend.Item.RadiusM < setRadiusM)
                .Select(bend => new FitNote.CoreWouldSet(bend.Index + 1, bend.Item.RadiusM, setRadiusM)));
        }
    }

    private static double? CheckLength(double neededM, LengthsMade made, List<FitProblem> problems, List<FitNote> notes)
    {
        double? orderM = made.OrderLengthM(neededM);
        if (orderM is null)
        {
            problems.Add(new FitProblem.LengthNotMade(neededM, made.LongestMadeM));
        }
        else if (orderM - neededM > made.StepM * (1 + Slack))
        {
            notes.Add(new FitNote.LongerThanNeeded(orderM.Value - neededM));
        }

        return orderM;
    }

    private static void CheckTravel(double? neededM, double? longestM, List<FitProblem> problems, List<FitNote> notes)
    {
        if (neededM is null || longestM is null)
        {
            notes.Add(new FitNote.NotChecked(FitCheckKind.Travel));
        }
        else if (neededM > longestM * (1 + Slack))
        {
            problems.Add(new FitProblem.TravelTooShort(neededM.Value, longestM.Value));
        }
    }

    private static void CheckLoad(CaseEffort effort, CableRatings ratings, List<FitProblem> problems, List<FitNote> notes)
    {
        LoadCase load = effort.Load;
        double? ratedN = load.Direction == Direction.Pull ? ratings.RatedPullN : ratings.RatedPushN;
        if (effort.MayLock)
        {
            problems.Add(new FitProblem.LocksInPush(load.Name, load.Heaviest?.ForceN ?? load.ForceN, effort.LockUpLoadN ?? 0));
        }
        else if (effort.CoreForceN.LikelyN > ratedN)
        {
            problems.Add(new FitProblem.RatedLoadExceeded(load.Name, load.Direction, effort.CoreForceN.LikelyN, ratedN.Value));
        }
        else if (effort.CoreForceN.HighN > ratedN)
        {
            notes.Add(new FitNote.MayExceedRatedLoad(load.Name, load.Direction, effort.CoreForceN.HighN, ratedN.Value));
        }
    }

    private static void NoteUnchecked(
        CableRoute route, IReadOnlyList<CaseEffort> cases, CableBands cable, CableRatings ratings, List<FitNote> notes)
    {
        Note(Moves(Direction.Pull) && ratings.RatedPullN is null, FitCheckKind.RatedPull);
        Note(Moves(Direction.Push) && ratings.RatedPushN is null, FitCheckKind.RatedPush);
        Note(Moves(Direction.Push) && cable.Core is null, FitCheckKind.LockUp);
        Note(route.TotalBendRad > 0 && cable.Core is null, FitCheckKind.CoreStiffness);
        Note(cable.SealDragN.High == 0 && cable.RunningDragNPerM.High == 0, FitCheckKind.Drags);

        bool Moves(Direction direction) => cases.Any(effort => effort.Load.Direction == direction);
        void Note(bool missing, FitCheckKind check)
        {
            if (missing)
            {
                notes.Add(new FitNote.NotChecked(check));
            }
        }
    }
}
