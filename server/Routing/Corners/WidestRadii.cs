namespace CableCatalog.Routing.Corners;

/// <summary>The widest radii that fit a row of legs: the least of them as wide as can be, then the next, and so on.</summary>
/// <remarks>A corner that turns through theta takes R tan(theta/2) of the leg on either side. All open radii grow together until a
/// leg is used up; those at its ends stay as they are and the others go on (max-min fairness by progressive filling, exact).
/// D. Bertsekas and R. Gallager, Data Networks, 2nd ed., 1992, section 6.5.2 (from memory).</remarks>
internal static class WidestRadii
{
    /// <summary>Fills the open radii of a path, m.</summary>
    /// <param name="legsM">The legs; leg i runs from corner i to corner i + 1.</param>
    /// <param name="takes">tan(theta/2) of every corner; 0 at the two ends.</param>
    /// <param name="givenM">The radii that are given; null: open.</param>
    /// <param name="mostM">The widest that each open one may become.</param>
    /// <returns>A radius for every corner; 0 where what is given leaves nothing.</returns>
    public static double[] Fill(
        IReadOnlyList<double> legsM, IReadOnlyList<double> takes, IReadOnlyList<double?> givenM, IReadOnlyList<double> mostM)
    {
        double[] radii = [.. givenM.Select(given => given ?? 0)];
        bool[] open = [.. givenM.Select((given, i) => given is null && takes[i] > 0)];
        while (open.Contains(true))
        {
            double level = Enumerable.Range(0, radii.Length).Where(i => open[i]).Min(i => mostM[i]);
            for (int leg = 0; leg < legsM.Count; leg++)
            {
                level = Math.Min(level, LevelOf(leg));
            }

            // Judged before any is closed: a leg's level depends on which of its corners are open.
            var closing = new HashSet<int>();
            for (int leg = 0; leg < legsM.Count; leg++)
            {
                if (LevelOf(leg) <= level)
                {
                    closing.UnionWith(new[] { leg, leg + 1 }.Where(i => open[i]));
                }
            }

            closing.UnionWith(Enumerable.Range(0, radii.Length).Where(i => open[i] && mostM[i] <= level));
            foreach (int i in closing)
            {
                (radii[i], open[i]) = (level, false);
            }
        }

        return radii;

        // The radius at which a leg is used up by the corners at its ends that are still open; infinite where none is.
        double LevelOf(int leg)
        {
            double slope = 0;
            double left = legsM[leg];
            foreach (int i in (ReadOnlySpan<int>)[leg, leg + 1])
            {
                if (open[i])
                {
                    slope += takes[i];
                }
                else
                {
                    left -= takes[i] * radii[i];
                }
            }

            return slope == 0 ? double.PositiveInfinity : Math.Max(0, left / slope);
        }
    }
}
