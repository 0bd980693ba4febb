using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Odds;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Options;

/// <summary>How an option does in every state.</summary>
/// <param name="SavedN">What it saves on average over its own friction, N.</param>
/// <param name="MeetChance">How likely it meets the limit; 1 where there is none.</param>
public sealed record OptionInStates(double[] SavedN, double[] MeetChance);

/// <summary>How sure an option is.</summary>
/// <remarks>
/// <para>Effort rises with the rank of a cable's friction and drags, so within a state the chance to stay within a bound is the rank at
/// which effort reaches it, exactly. Over the states, and over the ranks of a second cable, it is a mean over even ranks.</para>
/// <para>An effort that is beyond what any hand gives counts as <see cref="Limits.EffortN"/> at most, a cable that locks among them, so
/// that every mean has a figure.</para>
/// </remarks>
public sealed class OptionOdds(Installation installation, Baseline baseline, IReadOnlyList<State> states)
{
    // Ranks of a cable's own friction: for a mean, and for a pair of cables.
    private const int RanksForMean = 8;
    private const int RanksForPair = 64;

    private readonly double[] _presentN = [.. states.Select(state => Felt(state.Setting.WorstN(state.Present)))];
    private readonly double[] _presentWithoutCoreN =
        [.. states.Select(state => Felt(state.Setting.WorstN(state.Present with { Core = null })))];

    /// <summary>How an option does in every state.</summary>
    public OptionInStates InStates(OptionParts parts)
    {
        double[] presentN = PresentFor(parts);
        double[] savedN = new double[states.Count];
        double[] meet = new double[states.Count];
        if (parts.Grade is null)
        {
            foreach ((int i, State state) in states.Index())
            {
                double effortN = EffortIn(parts, state)(0.5);
                savedN[i] = presentN[i] - effortN;
                meet[i] = installation.EffortLimitN is { } limitN ? effortN <= limitN ? 1 : 0 : 1;
            }

            return new OptionInStates(savedN, meet);
        }

        // A new cable does the same whatever the present one is.
        foreach (IGrouping<int, (int Index, State Item)> alike in states.Index().GroupBy(state => state.Item.SettingNumber))
        {
            Func<double, double> effortN = EffortIn(parts, alike.First().Item);
            double meanN = EvenRanks.Of(RanksOf(parts, RanksForMean)).Average(effortN);
            double chance = installation.EffortLimitN is { } limitN ? Crossing.ShareAtMost(effortN, limitN) : 1;
            foreach ((int i, _) in alike)
            {
                (savedN[i], meet[i]) = (presentN[i] - meanN, chance);
            }
        }

        return new OptionInStates(savedN, meet);
    }

    /// <summary>How likely the dearer of two saves more than the cheaper by at least so much.</summary>
    /// <param name="cheaper">The cheaper.</param>
    /// <param name="dearer">The dearer.</param>
    /// <param name="byN">By how much, N, >= 0.</param>
    public double ChanceToSaveMore(OptionParts cheaper, OptionParts dearer, double byN)
    {
        // Like is held against like: see Baseline.SavingOf.
        double[] cheaperPresentN = PresentFor(cheaper);
        double[] dearerPresentN = PresentFor(dearer);
        return states.Index().Sum(one => one.Item.Chance * ChanceIn(
            one.Item, byN + cheaperPresentN[one.Index] - dearerPresentN[one.Index]));

        double ChanceIn(State state, double lessN)
        {
            Func<double, double> cheaperN = EffortIn(cheaper, state);
            Func<double, double> dearerN = EffortIn(dearer, state);
            return (cheaper.Grade, dearer.Grade) switch
            {
                (null, null) => dearerN(0.5) <= cheaperN(0.5) - lessN ? 1 : 0,
                (null, _) => Crossing.ShareAtMost(dearerN, cheaperN(0.5) - lessN),
                (_, null) => 1 - Crossing.ShareAtMost(cheaperN, dearerN(0.5) + lessN),
                ({ Id: var one }, { Id: var other }) when one == other =>
                    ShareAtLeast(rank => cheaperN(rank) - dearerN(rank) - lessN),
                _ => EvenRanks.Of(RanksOf(cheaper, RanksForPair))
                    .Average(rank => Crossing.ShareAtMost(dearerN, cheaperN(rank) - lessN)),
            };
        }
    }

    /// <summary>The effort that an option stays within with a given chance, N; to a thousandth.</summary>
    public double EffortWithin(OptionParts parts, double chance)
    {
        (Func<double, double> EffortN, double Chance)[] ways =
        [
            .. states.GroupBy(state => parts.Grade is null ? (state.SettingNumber, state.Cable) : (state.SettingNumber, 0))
                .Select(alike => (EffortIn(parts, alike.First()), alike.Sum(state => state.Chance))),
        ];
        double leastN = ways.Min(way => way.EffortN(0));
        double mostN = ways.Max(way => way.EffortN(1));
        while (mostN - leastN > 1e-3 * mostN)
        {
            double middleN = (leastN + mostN) / 2;
            double within = ways.Sum(way => way.Chance * Crossing.ShareAtMost(way.EffortN, middleN));
            (leastN, mostN) = within >= chance ? (leastN, middleN) : (middleN, mostN);
        }

        return mostN;
    }

    // Where the core of a new cable is unknown, that of a present one that was not measured is not counted either.
    private double[] PresentFor(OptionParts parts) =>
        parts.Grade is { Grade.Bands.Core: null } && baseline.Basis == BaselineBasis.Predicted ? _presentWithoutCoreN : _presentN;

    private static double Felt(double effortN) => Math.Min(effortN, Limits.EffortN.Most);

    private static int RanksOf(OptionParts parts, int wanted) => States.HasSpread(parts.Grade!.Grade.Bands) ? wanted : 1;

    // How large a share of ranks keeps a function at 0 or above; straight between two of them.
    private static double ShareAtLeast(Func<double, double> of)
    {
        double[] values = [.. Enumerable.Range(0, RanksForPair + 1).Select(i => of((double)i / RanksForPair))];
        return values.Zip(values.Skip(1), (from, to) => (from >= 0, to >= 0) switch
        {
            (true, true) => 1,
            (false, false) => 0,
            (true, false) => from / (from - to),
            (false, true) => to / (to - from),
        }).Sum() / RanksForPair;
    }

    // Effort of an option in a state by the rank of its cable's friction and drags; that of the present cable is known there.
    private static Func<double, double> EffortIn(OptionParts parts, State state)
    {
        Setting setting = parts.AppliedTo(state.Setting);
        if (parts.Grade is { Grade.Bands: { } cable })
        {
            return rank => Felt(setting.WorstN(States.AtRank(setting, cable, rank)));
        }

        double presentN = Felt(setting.WorstN(state.Present));
        return _ => presentN;
    }
}
