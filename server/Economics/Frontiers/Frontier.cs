namespace CableCatalog.Economics.Frontiers;

/// <summary>What an option costs and what it does.</summary>
/// <param name="Cost">What it costs, in one currency for all options.</param>
/// <param name="Effect">What it does, in any one unit, more is better; finite.</param>
public readonly record struct CostEffect(decimal Cost, double Effect);

/// <summary>Where an option stands.</summary>
public enum FrontierStanding
{
    /// <summary>Some value of a unit of effect makes it the best.</summary>
    OnFrontier,

    /// <summary>Another costs no more and does no less.</summary>
    Dominated,

    /// <summary>A mix of a cheaper and a dearer one does no less for no more.</summary>
    ExtendedlyDominated,
}

/// <summary>An option on the frontier, or what keeps it off.</summary>
/// <param name="Standing">Where it stands.</param>
/// <param name="By">The option that dominates it, or the cheaper of two that do together; null on the frontier.</param>
/// <param name="AndBy">The dearer of those two; else null.</param>
public readonly record struct FrontierPlace(FrontierStanding Standing, int? By, int? AndBy);

/// <summary>A step from one option on the frontier to the next.</summary>
/// <param name="From">The cheaper.</param>
/// <param name="To">The dearer.</param>
/// <param name="ExtraCost">What it costs more.</param>
/// <param name="ExtraEffect">What it does more; > 0.</param>
public readonly record struct FrontierStep(int From, int To, decimal ExtraCost, double ExtraEffect)
{
    /// <summary>Extra cost for each extra unit of effect. It rises from step to step.</summary>
    public double Ratio => (double)ExtraCost / ExtraEffect;
}

/// <summary>The efficiency frontier: the options that are best for some value of a unit of effect.</summary>
/// <remarks>Best is the most of value * effect - cost. Those options are the corners of the upper hull of (cost, effect), as in the
/// incremental cost-effectiveness ratios of health economics: A. Briggs, M. Sculpher, K. Claxton, Decision Modelling for Health
/// Economic Evaluation, 2006, chapter 2 (from memory). An option between two corners on a straight line with them is never best alone
/// and is off it; of options alike in both, the first stands for all.</remarks>
public sealed class Frontier
{
    private Frontier(IReadOnlyList<FrontierPlace> places, IReadOnlyList<int> corners, IReadOnlyList<FrontierStep> steps) =>
        (Places, Corners, Steps) = (places, corners, steps);

    /// <summary>For every option, in the order given, where it stands.</summary>
    public IReadOnlyList<FrontierPlace> Places { get; }

    /// <summary>The options on the frontier, the cheapest first.</summary>
    public IReadOnlyList<int> Corners { get; }

    /// <summary>The steps between them.</summary>
    public IReadOnlyList<FrontierStep> Steps { get; }

    /// <summary>The frontier of some options.</summary>
    /// <exception cref="ArgumentException">An effect is not finite.</exception>
    public static Frontier Of(IReadOnlyList<CostEffect> options)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.Any(option => !double.IsFinite(option.Effect)))
        {
            throw new ArgumentException("finite effects are expected", nameof(options));
        }

        int[] undominated = Undominated(options);
        int[] corners = Corner(options, undominated);
        return new Frontier(
            [.. options.Index().Select(option => PlaceOf(options, option.Index, undominated, corners))],
            corners,
            [.. corners.Zip(corners.Skip(1), (from, to) => new FrontierStep(
                from, to, options[to].Cost - options[from].Cost, options[to].Effect - options[from].Effect))]);
    }

    // By rising cost, and so by rising effect.
    private static int[] Undominated(IReadOnlyList<CostEffect> options)
    {
        var kept = new List<int>();
        foreach (int i in Enumerable.Range(0, options.Count)
            .OrderBy(i => options[i].Cost).ThenByDescending(i => options[i].Effect).ThenBy(i => i))
        {
            if (kept.Count == 0 || options[i].Effect > options[kept[^1]].Effect)
            {
                kept.Add(i);
            }
        }

        return [.. kept];
    }

    private static int[] Corner(IReadOnlyList<CostEffect> options, int[] undominated)
    {
        var corners = new List<int>();
        foreach (int next in undominated)
        {
            while (corners.Count >= 2 && IsUnderLine(options[corners[^2]], options[corners[^1]], options[next]))
            {
                corners.RemoveAt(corners.Count - 1);
            }

            corners.Add(next);
        }

        return [.. corners];
    }

    // Whether the step to the middle one costs no less for each unit than the step beyond it.
    private static bool IsUnderLine(CostEffect cheap, CostEffect middle, CostEffect dear) =>
        (double)(middle.Cost - cheap.Cost) * (dear.Effect - middle.Effect)
            >= (double)(dear.Cost - middle.Cost) * (middle.Effect - cheap.Effect);

    private static FrontierPlace PlaceOf(IReadOnlyList<CostEffect> options, int index, int[] undominated, int[] corners)
    {
        if (Array.IndexOf(corners, index) >= 0)
        {
            return new FrontierPlace(FrontierStanding.OnFrontier, null, null);
        }

        CostEffect option = options[index];
        if (Array.IndexOf(undominated, index) < 0)
        {
            int best = undominated.Last(other => options[other].Cost <= option.Cost);
            return new FrontierPlace(FrontierStanding.Dominated, best, null);
        }

        int dearer = Array.FindIndex(corners, corner => options[corner].Cost > option.Cost);
        return new FrontierPlace(FrontierStanding.ExtendedlyDominated, corners[dearer - 1], corners[dearer]);
    }
}
