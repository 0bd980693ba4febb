using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Savings;

/// <summary>A grade that fits, as the choice sees it.</summary>
/// <param name="Id">Its id; decides ties.</param>
/// <param name="Price">Its price for this installation.</param>
/// <param name="LikelyEffortN">Likely effort in the worst load case, N.</param>
/// <param name="Saving">What it saves.</param>
/// <param name="Limit">How it stands to the owner's limit.</param>
/// <param name="MayLockUnseen">Whether it is pushed and nothing is known from which to tell that it does not lock.</param>
public sealed record Candidate(
    string Id, Money Price, double LikelyEffortN, Saving Saving, LimitVerdict Limit, bool MayLockUnseen = false)
{
    /// <summary>Whether it likely saves anything.</summary>
    public bool LikelySaves => Saving.Verdict != SavingVerdict.SavesNothing;

    /// <summary>Whether it likely meets the owner's limit.</summary>
    public bool LikelyMeetsLimit => Limit is LimitVerdict.Meets or LimitVerdict.LikelyMeets;
}

/// <summary>Kinds of advice.</summary>
public enum BuyVerdict
{
    /// <summary>The cheapest that saves and likely meets the limit.</summary>
    CheapestThatMeetsLimit,

    /// <summary>No limit was given: the least cost per newton saved.</summary>
    LeastCostPerForceSaved,

    /// <summary>The present cable likely meets the limit.</summary>
    KeepPresentCable,

    /// <summary>None likely meets the limit; the one named comes closest.</summary>
    NoneMeetsLimit,

    /// <summary>None that fits saves anything.</summary>
    NoneSaves,

    /// <summary>None fits.</summary>
    NoneFits,

    /// <summary>The baseline is unexplained: diagnose first.</summary>
    DiagnoseFirst,

    /// <summary>The present cable is not fit to stay, whatever it takes: the cheapest that likely meets the limit, or where none
    /// does, the one that comes closest; without a limit, the cheapest that fits.</summary>
    ReplaceUnfitPresentCable,

    /// <summary>Something other than the cable is at fault: see to it first.</summary>
    RepairFirst,

    /// <summary>It is not yet known what is at fault, or whether anything is: test first.</summary>
    TestFirst,
}

/// <summary>What comes before any buying.</summary>
public enum BeforeBuying
{
    /// <summary>Nothing.</summary>
    Nothing,

    /// <summary>To see to what is at fault, which is not the cable.</summary>
    Repair,

    /// <summary>To find out what is at fault.</summary>
    Test,
}

/// <summary>What to buy.</summary>
/// <param name="Verdict">The kind of advice.</param>
/// <param name="Id">The grade it is about, or null.</param>
public sealed record BestBuy(BuyVerdict Verdict, string? Id)
{
    /// <summary>Advice over the candidates: the cheapest that meets the owner's limit; without a limit, the least cost per
    /// newton saved.</summary>
    /// <param name="fitting">The grades that fit.</param>
    /// <param name="presentLimit">How the present cable stands to the limit.</param>
    /// <param name="mayKeepPresent">Whether the present cable, whatever its effort, is fit to stay.</param>
    /// <param name="before">What comes before buying. A cable that is not fit to stay is replaced all the same, and one that
    /// likely meets the limit is kept whatever is at fault.</param>
    /// <exception cref="ArgumentException">The prices are in different currencies: they cannot be compared.</exception>
    public static BestBuy Among(
        IReadOnlyCollection<Candidate> fitting,
        LimitVerdict presentLimit,
        bool mayKeepPresent,
        BeforeBuying before = BeforeBuying.Nothing)
    {
        if (fitting.Select(c => c.Price.Currency).Distinct().Count() > 1)
        {
            throw new ArgumentException("prices of one currency are expected", nameof(fitting));
        }

        if (IsDecidedBefore(presentLimit, mayKeepPresent, before))
        {
            return new BestBuy(
                MeetsLimit(presentLimit) ? BuyVerdict.KeepPresentCable
                : before == BeforeBuying.Repair ? BuyVerdict.RepairFirst
                : BuyVerdict.TestFirst,
                null);
        }

        if (fitting.Count == 0)
        {
            return new BestBuy(BuyVerdict.NoneFits, null);
        }

        Candidate[] byId = [.. fitting.OrderBy(c => c.Id, StringComparer.Ordinal)];
        if (!mayKeepPresent)
        {
            // Nobody replaces one cable that may lock by another, as long as there is one that is known not to.
            Candidate[] safe = [.. byId.Where(c => !c.MayLockUnseen)];
            return new BestBuy(
                BuyVerdict.ReplaceUnfitPresentCable, CheapestWithin(safe.Length > 0 ? safe : byId, presentLimit).Id);
        }

        Candidate[] saving = [.. byId.Where(c => c.LikelySaves)];
        if (saving.Length == 0)
        {
            return new BestBuy(BuyVerdict.NoneSaves, null);
        }

        if (presentLimit == LimitVerdict.NoLimit)
        {
            Candidate? cheapestPerNewton = saving
                .Where(c => c.Saving.CostPerNewton(c.Price) is not null)
                .MinBy(c => c.Saving.CostPerNewton(c.Price)!.Value.Amount);

            // All of them free a locked cable: a saving without a figure, so the price alone decides.
            return new BestBuy(BuyVerdict.LeastCostPerForceSaved, (cheapestPerNewton ?? saving.MinBy(c => c.Price.Amount)!).Id);
        }

        Candidate[] meeting = [.. saving.Where(c => c.LikelyMeetsLimit)];
        return meeting.Length == 0
            ? new BestBuy(BuyVerdict.NoneMeetsLimit, saving.MinBy(c => c.LikelyEffortN)!.Id)
            : new BestBuy(BuyVerdict.CheapestThatMeetsLimit, meeting.MinBy(c => c.Price.Amount)!.Id);
    }

    /// <summary>Whether the advice is to buy nothing, whatever there is to buy.</summary>
    public static bool IsDecidedBefore(LimitVerdict presentLimit, bool mayKeepPresent, BeforeBuying before) =>
        mayKeepPresent && (MeetsLimit(presentLimit) || before != BeforeBuying.Nothing);

    private static bool MeetsLimit(LimitVerdict limit) => limit is LimitVerdict.Meets or LimitVerdict.LikelyMeets;

    private static Candidate CheapestWithin(Candidate[] fitting, LimitVerdict presentLimit)
    {
        Candidate[] meeting = presentLimit == LimitVerdict.NoLimit ? fitting : [.. fitting.Where(c => c.LikelyMeetsLimit)];
        return meeting.MinBy(c => c.Price.Amount) ?? fitting.MinBy(c => c.LikelyEffortN)!;
    }
}
