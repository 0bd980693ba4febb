namespace CableCatalog.Client.Reports.Plots;

/// <summary>The edge of a band that may leave the picture at its top, or have no bound.</summary>
/// <param name="Points">From left to right; a y of infinity is no bound.</param>
/// <param name="Top">Where the picture ends.</param>
internal sealed record CutEdge(IReadOnlyList<(double X, double Y)> Points, double Top)
{
    /// <summary>Whether any of it is above the top.</summary>
    public bool IsCut => Points.Any(point => point.Y > Top);

    /// <summary>The edge with everything above the top laid along it, as an area needs it.</summary>
    public IEnumerable<(double X, double Y)> Along()
    {
        foreach ((int index, (double x, double y)) in Points.Index())
        {
            if (index > 0 && y > Top != Points[index - 1].Y > Top)
            {
                yield return (Crossing(Points[index - 1], (x, y)), Top);
            }

            yield return (x, Math.Min(y, Top));
        }
    }

    /// <summary>The edge as far as the place where it leaves the picture, as a line needs it.</summary>
    public IEnumerable<(double X, double Y)> UpToTop()
    {
        foreach ((double x, double y) in Along())
        {
            yield return (x, y);
            if (y >= Top)
            {
                yield break;
            }
        }
    }

    // With no bound beyond the lower point, nothing is known between them either: straight up from there.
    private double Crossing((double X, double Y) one, (double X, double Y) other)
    {
        ((double lowX, double lowY), (double highX, double highY)) = one.Y <= other.Y ? (one, other) : (other, one);
        return double.IsInfinity(highY) ? lowX : lowX + ((Top - lowY) / (highY - lowY) * (highX - lowX));
    }
}
