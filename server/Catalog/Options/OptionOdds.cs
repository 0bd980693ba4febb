using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Odds;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Options;

/// <summary>How an option does in every state.</summary>
/// <param name="SavedN">What it saves on average over its own friction, N.</param>
/// <param name="MeetChance">How likely it meets the limit; 1 where there is none.</param>
public sealed record OptionInStates(double[] SavedN, double[] MeetChance);

/// <summary>How sure an option is.</summary>
/// <remarks>
/// <para>Effort rises with the rank of a cable's friction and drags, so in one setting the chance to stay within a bound is the rank at
/// which effort reaches it, exactly, for a new cable and for the present one. Over the settings, and over the ranks of a second cable, it
/// is a mean over even ranks.</para>
/// <para>An effort that is beyond what any hand gives counts as <see cref="Limits.EffortN"/> at most, a cable that locks among them, so
/// that every mean has a figure.</para>
/// </remarks>
public sealed class OptionOdds
{
    // Ranks of a cable's own friction: for a mean; for a pair of cables; for a pair and the present one beside.
    private const int RanksForMean = 8;
    private const int RanksForPair = 64;
    private const int RanksForThree = 16;

    private readonly Installation _installation;
    private readonly IReadOnlyList<State> _states;
    private readonly CableBands? _present;
    private readonly (State State, double Chance)[] _settings;
    private readonly double[] _presentN;
    private readonly double[] _presentWithoutCoreN;

    /// <summary>Makes the odds of an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable, which is not unexplained.</param>
    /// <param name="states">The states that things may be in.</param>
    public OptionOdds(Installation installation, Baseline baseline, IReadOnlyList<State> states)
    {
        (_installation, _states) = (installation, states);
        _present = baseline.Basis == BaselineBasis.Predicted ? baseline.PresentBands : null;

        // A present cable that is known by its bands has any rank in each setting; one that was measured is what the state says.
        _settings =
        [
            .. states.GroupBy(state => (state.SettingNumber, _present is null ? state.Cable : 0))
                .Select(alike => (alike.First(), alike.Sum(state => state.Chance))),
        ];
        _presentN = [.. states.Select(state => Felt(state.Setting.WorstN(state.Present)))];
        _presentWithoutCoreN = [.. states.Select(state => Felt(state.Setting.WorstN(state.Present with { Core = null })))];
    }

    /// <summary>Whether the present cable has a figure in every state: it locks in none.</summary>
    public bool PresentHasFigures => _presentN.All(effortN => effortN < Limits.EffortN.Most);

    /// <summary>How an option does in every state.</summary>
    public OptionInStates InStates(OptionParts parts)
    {
        double[] presentN = IsWithoutCore(parts) ? _presentWithoutCoreN : _presentN;
        double[] savedN = new double[_states.Count];
        double[] meet = new double[_states.Count];

        // A new cable does the same whatever the present one is.
        foreach (IGrouping<(int, int), (int Index, State Item)> alike in _states.Index()
            .GroupBy(state => (state.Item.SettingNumber, parts.Grade is null ? state.Item.Cable : 0)))
        {
            Func<double, double> effortN = parts.Grade is null
                ? InState(parts, alike.First().Item)
                : InSetting(parts, alike.First().Item);
            double meanN = EvenRanks.Of(RanksOf(parts.Grade?.Grade.Bands, RanksForMean)).Average(effortN);
            double chance = _installation.EffortLimitN is { } limitN ? Crossing.ShareAtMost(effortN, limitN) : 1;
            foreach ((int i, _) in alike)
            {
                (savedN[i], meet[i]) = (presentN[i] - meanN, chance);
            }
        }

        return new OptionInStates(savedN, meet);
    }

    /// <summary>How likely the effort of an option is no more than a bound, N.</summary>
    public double ChanceOfAtMost(OptionParts parts, double boundN) =>
        _settings.Sum(one => one.Chance * Crossing.ShareAtMost(InSetting(parts, one.State), boundN));

    /// <summary>The effort that an option stays within with a given chance, N; to a thousandth. Null where only beyond any figure.</summary>
    public double? EffortWithin(OptionParts parts, double chance)
    {
        (Func<double, double> EffortN, double Chance)[] ways =
            [.. _settings.Select(one => (InSetting(parts, one.State), one.Chance))];
        double leastN = ways.Min(way => way.EffortN(0));
        double mostN = ways.Max(way => way.EffortN(1));
        while (mostN - leastN > 1e-3 * mostN)
        {
            double middleN = (leastN + mostN) / 2;
            double within = ways.Sum(way => way.Chance * Crossing.ShareAtMost(way.EffortN, middleN));
            (leastN, mostN) = within >= chance ? (leastN, middleN) : (middleN, mostN);
        }

        return mostN < Limits.EffortN.Most ? mostN : null;
    }

    /// <summary>How likely the dearer of two saves more than the cheaper by at least so much.</summary>
    /// <param name="cheaper">The cheaper.</param>
    /// <param name="dearer">The dearer.</param>
    /// <param name="byN">By how much, N, above 0: what saves just as much does not save more.</param>
    public double ChanceToSaveMore(OptionParts cheaper, OptionParts dearer, double byN) =>
        _settings.Sum(one => one.Chance * ChanceToSaveMore(cheaper, dearer, byN, one.State));

    private double ChanceToSaveMore(OptionParts cheaper, OptionParts dearer, double byN, State state)
    {
        Func<double, double> cheaperN = InSetting(cheaper, state);
        Func<double, double> dearerN = InSetting(dearer, state);
        if (cheaper.Grade?.Id == dearer.Grade?.Id)
        {
            return ShareAtLeast(rank => cheaperN(rank) - dearerN(rank) - byN);
        }

        // Like is held against like: see Baseline.SavingOf. Both savings are from the present cable, at one rank of it.
        Func<double, double> presentForCheaperN = Present(state, IsWithoutCore(cheaper));
        Func<double, double> presentForDearerN = Present(state, IsWithoutCore(dearer));
        double LessN(double rank) => byN + presentForCheaperN(rank) - presentForDearerN(rank);

        if (cheaper.Grade is null)
        {
            return EvenRanks.Of(RanksOf(_present, RanksForPair))
                .Average(rank => Crossing.ShareAtMost(dearerN, cheaperN(rank) - LessN(rank)));
        }

        if (dearer.Grade is null)
        {
            return EvenRanks.Of(RanksOf(_present, RanksForPair))
                .Average(rank => 1 - Crossing.ShareAtMost(cheaperN, dearerN(rank) + LessN(rank)));
        }

        CableBands cheaperBands = cheaper.Grade.Grade.Bands;
        return IsWithoutCore(cheaper) == IsWithoutCore(dearer)
            ? EvenRanks.Of(RanksOf(cheaperBands, RanksForPair)).Average(rank => Crossing.ShareAtMost(dearerN, cheaperN(rank) - byN))
            : EvenRanks.Of(RanksOf(_present, RanksForThree)).Average(ofPresent =>
                EvenRanks.Of(RanksOf(cheaperBands, RanksForThree))
                    .Average(rank => Crossing.ShareAtMost(dearerN, cheaperN(rank) - LessN(ofPresent))));
    }

    private static double Felt(double effortN) => Math.Min(effortN, Limits.EffortN.Most);

    private static int RanksOf(CableBands? cable, int wanted) => cable is not null && States.HasSpread(cable) ? wanted : 1;

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

    // Where the core of a new cable is unknown, that of a present one that was not measured is not counted either.
    private bool IsWithoutCore(OptionParts parts) => _present is not null && parts.Grade is { Grade.Bands.Core: null };

    // Effort of an option in a state, in which the present cable is known.
    private static Func<double, double> InState(OptionParts parts, State state)
    {
        Setting setting = parts.AppliedTo(state.Setting);
        double presentN = Felt(setting.WorstN(state.Present with { HiddenShare = setting.HiddenShare }));
        return _ => presentN;
    }

    // Effort of an option in the setting of a state by the rank of its cable's friction and drags.
    private Func<double, double> InSetting(OptionParts parts, State state)
    {
        Setting setting = parts.AppliedTo(state.Setting);
        return (parts.Grade?.Grade.Bands ?? _present) is { } cable
            ? rank => Felt(setting.WorstN(States.AtRank(setting, cable, rank)))
            : InState(parts, state);
    }

    private Func<double, double> Present(State state, bool withoutCore)
    {
        CableBands? cable = withoutCore && _present is not null ? _present with { Core = null } : _present;
        if (cable is null)
        {
            double presentN = Felt(state.Setting.WorstN(state.Present));
            return _ => presentN;
        }

        return rank => Felt(state.Setting.WorstN(States.AtRank(state.Setting, cable, rank)));
    }
}
