namespace CableCatalog.Economics.Odds;

/// <summary>Ranks that stand for a whole distribution: the middles of equal shares of it. No chance is in them.</summary>
/// <remarks>The midpoint rule over the rank. Of n ranks a smooth mean is exact to about 1/n^2 of its spread, and a share is exact to
/// 1/(2n) at each edge.</remarks>
public static class EvenRanks
{
    /// <summary>The middles of n equal shares, rising.</summary>
    /// <param name="count">How many; one at least.</param>
    public static double[] Of(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        return [.. Enumerable.Range(0, count).Select(i => (i + 0.5) / count)];
    }
}
