using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Corners;

/// <summary>Straight runs from corner to corner, each corner rounded.</summary>
/// <remarks>The turn at a corner is the angle between the legs' directions; the arc takes t = R tan(theta/2) of each leg, and
/// t_i + t_(i+1) &lt;= leg. Length = sum of legs - sum of (2 t - R theta).</remarks>
public static class CornerPath
{
    /// <summary>The most corners in a path.</summary>
    public const int MostCorners = 100;

    // A path that turns back within this of straight back has no side to go round by.
    private const double ReversalRad = 0.001;

    /// <summary>Rounds the corners.</summary>
    /// <remarks>A corner where the path turns less than a bend may (0.001 rad) is left out: the path runs straight from the one
    /// before it to the one after. What is left of a leg between two bends is left out where it is under 1 mm, the least there
    /// may be of a straight, and as much may be missing; the route's arm end is off by so much.</remarks>
    /// <param name="corners">2 to 100, in order from the helm; a radius is within <see cref="Limits.BendRadiusM"/>.</param>
    /// <exception cref="ArgumentException">Fewer or more, a place that is not finite, a radius out of range or at an
    /// end.</exception>
    public static CornerFit Fit(IReadOnlyList<Corner> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        if (corners.Count is < 2 or > MostCorners || corners.Any(c => !Points.IsFinite(c.At))
            || corners.Any(c => c.RadiusM is { } radius && !Limits.BendRadiusM.Contains(radius))
            || corners[0].RadiusM is not null || corners[^1].RadiusM is not null)
        {
            throw new ArgumentException("a path has 2 to 100 finite corners; radii are in range, and not at the ends");
        }

        if (CoincidentOrReversed(corners) is { Count: > 0 } problems)
        {
            return new NotFitted(problems);
        }

        var path = Bending.Of(corners);
        return path.TooShort() is { Count: > 0 } tooShort ? new NotFitted(tooShort) : path.Rounded(corners.Count);
    }

    private static List<CornerProblem> CoincidentOrReversed(IReadOnlyList<Corner> corners)
    {
        var problems = new List<CornerProblem>();
        for (int i = 1; i < corners.Count; i++)
        {
            if ((corners[i].At - corners[i - 1].At).Length < Points.CoincidentM)
            {
                problems.Add(new Coincident(i));
            }
        }

        for (int i = 1; problems.Count == 0 && i < corners.Count - 1; i++)
        {
            Vec before = corners[i].At - corners[i - 1].At;
            if (Points.AngleRad(before, corners[i + 1].At - corners[i].At) > Math.PI - ReversalRad)
            {
                problems.Add(new Reversal(i));
            }
        }

        return problems;
    }

    /// <summary>The corners at which the path bends, and the ends.</summary>
    private sealed record Bending(
        List<int> Kept, Vec[] At, double[] LegsM, double[] AnglesRad, double[] Takes, double?[] GivenM)
    {
        public static Bending Of(IReadOnlyList<Corner> corners)
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

            Vec[] at = [.. kept.Select(i => corners[i].At)];
            double[] angles = [.. at.Select((_, i) => i == 0 || i == at.Length - 1 ? 0
                : Points.AngleRad(at[i] - at[i - 1], at[i + 1] - at[i]))];
            return new Bending(
                kept,
                at,
                [.. at.Zip(at.Skip(1), (a, b) => (b - a).Length)],
                angles,
                [.. angles.Select(angle => Math.Tan(angle / 2))],
                [.. kept.Select(i => corners[i].RadiusM)]);
        }

        public List<LegTooShort> TooShort()
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

        public CornerFit Rounded(int cornerCount)
        {
            double[] most = [.. GivenM.Select(_ => Limits.BendRadiusM.Most)];
            double[] radii =
            [
                .. WidestRadii.Fill(LegsM, Takes, GivenM, most)
                    .Select((radius, i) => Takes[i] > 0 ? Math.Max(Limits.BendRadiusM.Least, radius) : radius),
            ];
            var helmEnd = new RouteEnd(At[0], At[1] - At[0]);
            Frame frame = Frame.AtHelm(helmEnd);
            var elements = new List<RouteElement>();
            for (int leg = 0; leg < LegsM.Length; leg++)
            {
                double straightM = LegsM[leg] - (Takes[leg] * radii[leg]) - (Takes[leg + 1] * radii[leg + 1]);
                if (straightM > Limits.LengthM.Most)
                {
                    return new NotFitted([new RouteTooLong(LegsM.Sum())]);
                }

                if (straightM >= Limits.LengthM.Least)
                {
                    elements.Add(new Straight(straightM));
                }

                if (leg + 1 < LegsM.Length)
                {
                    double turnRad = frame.TurnTo(At[leg + 2] - At[leg + 1]);
                    var bend = new Bend(AnglesRad[leg + 1], radii[leg + 1], turnRad);
                    elements.Add(bend);
                    frame = frame.Past(bend);
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

            var radiiM = new double?[cornerCount];
            foreach ((int k, int corner) in Kept.Index().Skip(1).SkipLast(1))
            {
                radiiM[corner] = radii[k];
            }

            return new Fitted(new RouteInSpace(new CableRoute(elements), helmEnd), radiiM);
        }
    }
}
