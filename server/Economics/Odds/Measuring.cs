namespace CableCatalog.Economics.Odds;

/// <summary>What knowing more before choosing is worth.</summary>
/// <remarks>Sum over the answers of their chance times what is gained by choosing after the answer instead of before it. Where the choice is
/// whatever has the most expected net benefit, that is the expected value of partial perfect information: A. Ades, G. Lu, K. Claxton, Medical
/// Decision Making 24, 2004, pages 207 to 227 (from memory). Where a limit binds the choice, an answer after which one has to spend more
/// to meet it gains no money and counts for nothing. No real test tells as much, so it is worth at most this.</remarks>
public static class Measuring
{
    /// <summary>The most that learning something is worth, in the unit of the net benefits; >= 0.</summary>
    /// <param name="chances">The chance of each state.</param>
    /// <param name="learnt">For each state, which answer the test gives there; states of one answer stay unknown from each other.</param>
    /// <param name="choose">What is chosen when it is known to be one of some states.</param>
    /// <param name="netBenefit">The expected net benefit of a choice over some states, by their chances.</param>
    public static double IsWorthAtMost<T>(
        IReadOnlyList<double> chances,
        IReadOnlyList<int> learnt,
        Func<IReadOnlyList<int>, T> choose,
        Func<T, IReadOnlyList<int>, double> netBenefit)
    {
        ArgumentNullException.ThrowIfNull(chances);
        ArgumentNullException.ThrowIfNull(learnt);
        ArgumentNullException.ThrowIfNull(choose);
        ArgumentNullException.ThrowIfNull(netBenefit);
        int[] all = [.. Enumerable.Range(0, chances.Count)];
        T now = choose(all);
        return all.GroupBy(state => learnt[state]).Sum(answer =>
        {
            int[] states = [.. answer];
            return states.Sum(state => chances[state])
                * Math.Max(0, netBenefit(choose(states), states) - netBenefit(now, states));
        });
    }
}
