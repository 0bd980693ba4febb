namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Points spread evenly over a unit cube, always the same ones: the n-th has the coordinates frac(1/2 + n g^-i), where g
/// solves g^(d+1) = g + 1.</summary>
/// <remarks>An additive recurrence with the generalised golden ratio: M. Roberts, "The unreasonable effectiveness of
/// quasirandom sequences", 2018 (from memory). Even spread needs far fewer points than chance does, and no seed.</remarks>
internal sealed class EvenPoints
{
    private readonly double[] _steps;

    /// <summary>Points of a number of coordinates.</summary>
    public EvenPoints(int coordinates)
    {
        double ratio = 2;
        for (int i = 0; i < 100; i++)
        {
            ratio = Math.Pow(1 + ratio, 1.0 / (coordinates + 1));
        }

        _steps = [.. Enumerable.Range(1, coordinates).Select(i => Math.Pow(ratio, -i))];
    }

    /// <summary>One coordinate of a point, 0 to 1.</summary>
    public double At(int point, int coordinate)
    {
        double at = 0.5 + ((point + 1) * _steps[coordinate]);
        return at - Math.Floor(at);
    }
}
