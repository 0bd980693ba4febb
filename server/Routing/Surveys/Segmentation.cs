namespace CableCatalog.Routing.Surveys;

/// <summary>Cuts a curvature that varies along a curve into pieces of one curvature each.</summary>
/// <remarks>The cuts that leave least squared deviation, weighted by length: exact, by dynamic programming. R. Bellman, On the
/// approximation of curves by line segments using dynamic programming, Communications of the ACM 4, 1961.</remarks>
internal sealed class Segmentation
{
    private readonly double[] length;
    private readonly double[] left;
    private readonly double[] up;
    private readonly double[] squares;
    private readonly List<int[]> cuts = [];
    private double[] least;

    /// <summary>Takes short stretches of a curve in order: length, m, and curvature to the left and up, 1/m.</summary>
    public Segmentation(IReadOnlyList<ArcPiece> stretches)
    {
        length = Sums(stretches, s => s.LengthM);
        left = Sums(stretches, s => s.LengthM * s.LeftPerM);
        up = Sums(stretches, s => s.LengthM * s.UpPerM);
        squares = Sums(stretches, s => s.LengthM * s.CurvaturePerM * s.CurvaturePerM);
        least = [.. Enumerable.Range(0, stretches.Count + 1).Select(to => to == 0 ? 0 : Deviation(0, to))];
        cuts.Add(new int[stretches.Count + 1]);
    }

    /// <summary>The best cut into a number of pieces, at most the number of stretches. Ask for fewer before more: what was
    /// found is kept.</summary>
    public IReadOnlyList<ArcPiece> Into(int count)
    {
        while (cuts.Count < count)
        {
            Further();
        }

        var pieces = new ArcPiece[count];
        int to = length.Length - 1;
        for (int k = count - 1; k >= 0; k--)
        {
            int from = cuts[k][to];
            double overM = length[to] - length[from];
            pieces[k] = new ArcPiece(overM, (left[to] - left[from]) / overM, (up[to] - up[from]) / overM, false);
            to = from;
        }

        return pieces;
    }

    private static double[] Sums(IReadOnlyList<ArcPiece> stretches, Func<ArcPiece, double> of)
    {
        var sums = new double[stretches.Count + 1];
        for (int i = 0; i < stretches.Count; i++)
        {
            sums[i + 1] = sums[i] + of(stretches[i]);
        }

        return sums;
    }

    private double Deviation(int from, int to)
    {
        double sumLeft = left[to] - left[from];
        double sumUp = up[to] - up[from];
        return squares[to] - squares[from] - (((sumLeft * sumLeft) + (sumUp * sumUp)) / (length[to] - length[from]));
    }

    private void Further()
    {
        int pieces = cuts.Count;
        var next = new double[least.Length];
        var cut = new int[least.Length];
        for (int to = 0; to < least.Length; to++)
        {
            next[to] = double.PositiveInfinity;
            for (int from = pieces; from < to; from++)
            {
                double all = least[from] + Deviation(from, to);
                if (all < next[to])
                {
                    (next[to], cut[to]) = (all, from);
                }
            }
        }

        least = next;
        cuts.Add(cut);
    }
}
