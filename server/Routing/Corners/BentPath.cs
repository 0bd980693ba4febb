using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Corners;

/// <summary>The corners at which a path bends, and its ends.</summary>
/// <param name="CornerCount">How many corners there were, with those at which it runs on straight.</param>
/// <param name="Kept">Which of them these are.</param>
/// <param name="At">Where they are, m.</param>
/// <param name="LegsM">How far each is from the next, m.</param>
/// <param name="AnglesRad">How far the path turns at each; 0 at the ends.</param>
/// <param name="Takes">How much of a leg a bend takes, by its radius: tan of half the turn.</param>
/// <param name="GivenM">The radii that are given, m; null: as wide as fits.</param>
internal sealed record BentPath(
    int CornerCount, List<int> Kept, Vec[] At, double[] LegsM, double[] AnglesRad, double[] Takes, double?[] GivenM)
{
    /// <summary>The path through corners, none of which is at the place of the one before it.</summary>
    public static BentPath Of(IReadOnlyList<Corner> corners)
    {
        List<int> kept = [.. Enumerable.Range(0, corners.Count)];
        for (int k = 1; k < kept.Count - 1;)
        {
            Vec before = corners[kept[k]].At - corners[kept[k - 1]].At;
            Vec after = corners[kept[k + 1]].At - corners[kept[k]].At;
            if (Points.AngleRad(before, after) < Limits.BendAngleRad.Least)
            {
                kept.RemoveAt(k);
                k = Math.Max(1, k - 1);
            }
            else
            {
                k++;
            }
        }

        var at = new Vec[kept.Count];
        var givenM = new double?[kept.Count];
        for (int i = 0; i < kept.Count; i++)
        {
            (at[i], givenM[i]) = corners[kept[i]];
        }

        var legsM = new double[kept.Count - 1];
        for (int i = 0; i < legsM.Length; i++)
        {
            legsM[i] = (at[i + 1] - at[i]).Length;
        }

        (var anglesRad, var takes) = (new double[kept.Count], new double[kept.Count]);
        for (int i = 1; i < kept.Count - 1; i++)
        {
            anglesRad[i] = Points.AngleRad(at[i] - at[i - 1], at[i + 1] - at[i]);
            takes[i] = Math.Tan(anglesRad[i] / 2);
        }

        return new BentPath(corners.Count, kept, at, legsM, anglesRad, takes, givenM);
    }

    /// <summary>The legs that the bends at their ends take more of than there is.</summary>
    public IReadOnlyList<LegTooShort> TooShort()
    {
        double ShortByM(int leg) => Demand(leg) + Demand(leg + 1) - LegsM[leg];
        double Demand(int corner) => Takes[corner] * (GivenM[corner] ?? Limits.BendRadiusM.Least);

        // Nothing is made of a straight under 1 mm, and nothing of one that is missing.
        int[] tooShort = [.. Enumerable.Range(0, LegsM.Length).Where(leg => ShortByM(leg) > Points.CoincidentM)];
        if (tooShort.Length == 0)
        {
            return [];
        }

        HashSet<int> reopened = [.. tooShort.SelectMany(leg => new[] { leg, leg + 1 })];
        double[] widest = WidestRadii.Fill(
            LegsM,
            Takes,
            [.. GivenM.Select((given, i) => reopened.Contains(i) ? null : given)],
            [.. GivenM.Select(given => given ?? Limits.BendRadiusM.Most)]);
        double? Widest(int i) => Takes[i] > 0 && widest[i] >= Limits.BendRadiusM.Least ? widest[i] : null;
        return [.. tooShort.Select(leg => new LegTooShort(
            Kept[leg], Kept[leg + 1], LegsM[leg], ShortByM(leg), Widest(leg), Widest(leg + 1)))];
    }

    /// <summary>The route along a path none of whose legs is too short.</summary>
    public CornerFit Rounded()
    {
        var most = new double[GivenM.Length];
        Array.Fill(most, Limits.BendRadiusM.Most);
        double[] radiiM = WidestRadii.Fill(LegsM, Takes, GivenM, most);
        for (int i = 1; i < radiiM.Length - 1; i++)
        {
            radiiM[i] = Math.Max(Limits.BendRadiusM.Least, radiiM[i]);
        }

        return Rounded(radiiM);
    }

    /// <summary>The route along a path for which radii are known that fit, with none of them wider than a limit.</summary>
    /// <param name="fittingM">The radii, one for each corner there was, as they are in a route along this path.</param>
    /// <param name="mostM">The limit, m; a radius that a bend may have.</param>
    public CornerFit NoWiderThan(IReadOnlyList<double?> fittingM, double mostM)
    {
        var radiiM = new double[Kept.Count];
        for (int i = 1; i < radiiM.Length - 1; i++)
        {
            radiiM[i] = Math.Min(fittingM[Kept[i]]!.Value, mostM);
        }

        return Rounded(radiiM);
    }

    private CornerFit Rounded(double[] radii)
    {
        var helmEnd = new RouteEnd(At[0], At[1] - At[0]);
        var frames = new List<Frame>(2 * LegsM.Length) { Frame.AtHelm(helmEnd) };
        var elements = new List<RouteElement>((2 * LegsM.Length) - 1);
        void Add(RouteElement element)
        {
            elements.Add(element);
            frames.Add(frames[^1].Past(element));
        }

        for (int leg = 0; leg < LegsM.Length; leg++)
        {
            double straightM = LegsM[leg] - (Takes[leg] * radii[leg]) - (Takes[leg + 1] * radii[leg + 1]);
            if (straightM > Limits.LengthM.Most)
            {
                return new NotFitted([new RouteTooLong(LegsM.Sum())]);
            }

            if (straightM >= Limits.LengthM.Least)
            {
                Add(new Straight(straightM));
            }

            if (leg + 1 < LegsM.Length)
            {
                Add(new Bend(AnglesRad[leg + 1], radii[leg + 1], frames[^1].TurnTo(At[leg + 2] - At[leg + 1])));
            }
        }

        double lengthM = elements.Sum(e => e.LengthM);
        double bendRad = elements.Sum(e => e.AngleRad);
        if (lengthM > Limits.LengthM.Most)
        {
            return new NotFitted([new RouteTooLong(lengthM)]);
        }

        if (bendRad > Limits.TotalBendRad.Most)
        {
            return new NotFitted([new TooMuchBend(bendRad)]);
        }

        var radiiM = new double?[CornerCount];
        for (int k = 1; k < Kept.Count - 1; k++)
        {
            radiiM[Kept[k]] = radii[k];
        }

        return new Fitted(this, new RouteInSpace(new CableRoute(elements), helmEnd, [.. frames]), radiiM);
    }
}
