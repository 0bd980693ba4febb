namespace CableCatalog.Mechanics.Routes;

/// <summary>A place where the curvature of a route changes: there a stiff core presses on the conduit.</summary>
/// <param name="ChangePerM">Length of the difference of the curvature vectors on the two sides, 1/m.</param>
/// <param name="LoneBendLengthM">Length of the bend, where the place is an end of a bend between two straights, m;
/// otherwise infinite.</param>
internal readonly record struct CurvatureChange(double ChangePerM, double LoneBendLengthM)
{
    /// <summary>The changes along a route, from the helm: one before each section and one at the output.</summary>
    /// <remarks>The end fittings hold the core straight, so a bend at an end of the route has a change there too.</remarks>
    public static CurvatureChange[] Along(IReadOnlyList<RouteElement> sections)
    {
        var changes = new CurvatureChange[sections.Count + 1];
        for (int i = 0; i <= sections.Count; i++)
        {
            Bend? before = BendAt(i - 1);
            Bend? after = BendAt(i);
            changes[i] = new CurvatureChange(Between(before, after), (before, after) switch
            {
                (null, { } bend) when BendAt(i + 1) is null => bend.LengthM,
                ({ } bend, null) when BendAt(i - 2) is null => bend.LengthM,
                _ => double.PositiveInfinity,
            });
        }

        return changes;

        Bend? BendAt(int index) => index >= 0 && index < sections.Count ? sections[index] as Bend : null;
    }

    /// <summary>Whether two touching bends are stated to turn the same way.</summary>
    public static bool SameWay(Bend a, Bend b) =>
        a.TurnRad is { } turnA && b.TurnRad is { } turnB && Math.Cos(turnA - turnB) > 1 - 1e-12;

    // Where the file does not say which way touching bends turn, they are taken to oppose: the worse case.
    private static double Between(Bend? before, Bend? after) => (before, after) switch
    {
        (null, null) => 0,
        ({ } bend, null) => 1 / bend.RadiusM,
        (null, { } bend) => 1 / bend.RadiusM,
        ({ TurnRad: { } turnA } a, { TurnRad: { } turnB } b) => Distance(1 / a.RadiusM, 1 / b.RadiusM, turnA - turnB),
        ({ } a, { } b) => (1 / a.RadiusM) + (1 / b.RadiusM),
    };

    /// <summary>Distance between two vectors in a plane by their lengths and the angle between them: cosine rule in the
    /// half-angle form, which loses no digits when the two are nearly one.</summary>
    private static double Distance(double a, double b, double angleRad)
    {
        double half = Math.Sin(angleRad / 2);
        return Math.Sqrt(((a - b) * (a - b)) + (4 * a * b * half * half));
    }
}
