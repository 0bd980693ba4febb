using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>A possible chain and how likely it is; the weights of all add to 1.</summary>
internal readonly record struct WeightedChain(PossibleChain Chain, double Weight);

/// <summary>The chains that give every reading, out of many drawn evenly over what <see cref="Prior"/> says.</summary>
/// <remarks>For nothing at fault, each thing, and each two things of different parts: parts are drawn, and those that contradict a
/// reading made on them alone are struck out; those left are put together, and chains that contradict a reading are struck
/// out. By Bayes' rule a supposition is as likely as it was before, times the share that is left of it.</remarks>
internal sealed class PossibleChains
{
    private const int FirstRound = 2048;

    // A supposition that is at most this likely is not looked into any further.
    private const double Negligible = 1e-3;
    private const int LeastLeft = 20;

    private PossibleChains(IReadOnlyList<WeightedChain> chains, PossibleChain typical, int consideredCount) =>
        (Chains, Typical, ConsideredCount) = (chains, typical, consideredCount);

    /// <summary>The chains; empty where none of those drawn gives every reading.</summary>
    public IReadOnlyList<WeightedChain> Chains { get; }

    /// <summary>The chain as described, at the likely value of everything.</summary>
    public PossibleChain Typical { get; }

    /// <summary>How many were put together.</summary>
    public int ConsideredCount { get; }

    /// <summary>Whether any is possible.</summary>
    public bool Any => Chains.Count > 0;

    /// <summary>How likely it is that nothing is at fault.</summary>
    public double NothingAtFault => Chains.Where(c => c.Chain.Faults.Count == 0).Sum(c => c.Weight);

    /// <summary>The chains that give every reading.</summary>
    /// <param name="described">The chain as described.</param>
    /// <param name="series">The readings.</param>
    /// <param name="mostDrawn">The most chains to put together for each supposition; fewer where enough are left of them.</param>
    /// <param name="cancellation">Gives up before a chain is drawn.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static PossibleChains Of(
        DescribedChain described, IReadOnlyList<TestedSeries> series, int mostDrawn, CancellationToken cancellation)
    {
        Direction[] directions = [.. series.Select(s => s.SetUp.CoreDirection).OfType<Direction>().Distinct().Order()];
        PossibleChain typical = SoundChain.At(described, BandEnd.Likely);
        var tests = new PieceTests(described.Chain, series, cancellation);
        PartBanks parts = PartBanks.Of(
            described, directions.Length > 0 ? directions : [described.Loads[0].Direction], tests, typical);
        var assembly = new Assembly(described.Chain, parts, tests, typical, mostDrawn);
        Supposition[] suppositions =
        [
            .. Prior.Suppositions(described).Select(s =>
            {
                (PartState<HelmSide> near, PartState<ArmSide> far) = assembly.Sides(s.Faults);
                return new Supposition(s.Faults, s.Probability, near, far);
            }),
        ];
        Draw(suppositions, tests, mostDrawn);

        // One chance hit among hundreds of thousands explains nothing.
        double whole = suppositions.Sum(s => s.Left.Count) < LeastLeft ? 0 : suppositions.Sum(s => s.Likelihood);
        return new PossibleChains(
            whole == 0
                ? []
                : [.. suppositions.SelectMany(s => s.Left.Select(c => new WeightedChain(c, s.Likelihood / whole / s.Left.Count)))],
            typical,
            suppositions.Sum(s => s.Drawn));
    }

    // Rounds that double; more is drawn only of what is not settled and may still matter.
    private static void Draw(Supposition[] suppositions, PieceTests tests, int mostDrawn)
    {
        for (int end = Math.Min(FirstRound, mostDrawn); ; end = Math.Min(2 * end, mostDrawn))
        {
            double matters = Negligible * suppositions.Sum(s => s.Likelihood);
            foreach (Supposition one in suppositions.Where(s => !s.IsSettled && (s.Drawn == 0 || s.MostLikelihood > matters)))
            {
                one.Draw(end, tests);
            }

            if (end == mostDrawn)
            {
                return;
            }
        }
    }
}
