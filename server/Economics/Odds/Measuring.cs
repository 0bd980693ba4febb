namespace CableCatalog.Economics.Odds;

/// <summary>What knowing more before choosing is worth.</summary>
/// <remarks>Expected value of partial perfect information: sum over what may be learnt of its chance times the best expected net benefit
/// once it is learnt, less the best expected net benefit now. No real test tells as much, so it is worth at most this. A. Ades, G. Lu,
/// K. Claxton, Medical Decision Making 24, 2004, pages 207 to 227 (from memory).</remarks>
public static class Measuring
{
    /// <summary>The most that learning something is worth, in the unit of the net benefits; >= 0.</summary>
    /// <param name="netBenefits">For every option its expected net benefit in each state; finite.</param>
    /// <param name="chances">The chance of each state; they add to 1.</param>
    /// <param name="learnt">For each state, which answer the test gives there: states of one answer stay apart unknown.</param>
    public static double IsWorthAtMost(
        IReadOnlyList<double[]> netBenefits, IReadOnlyList<double> chances, IReadOnlyList<int> learnt)
    {
        ArgumentNullException.ThrowIfNull(netBenefits);
        ArgumentNullException.ThrowIfNull(chances);
        ArgumentNullException.ThrowIfNull(learnt);
        IGrouping<int, int>[] answers = [.. Enumerable.Range(0, chances.Count).GroupBy(state => learnt[state])];
        double knowing = answers.Sum(Best);
        return Math.Max(0, knowing - Best(Enumerable.Range(0, chances.Count)));

        double Best(IEnumerable<int> states)
        {
            int[] among = [.. states];
            return netBenefits.Max(of => among.Sum(state => chances[state] * of[state]));
        }
    }
}
