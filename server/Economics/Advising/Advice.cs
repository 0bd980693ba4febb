using CableCatalog.Economics.Frontiers;
using CableCatalog.Economics.Odds;
using CableCatalog.Economics.Savings;

namespace CableCatalog.Economics.Advising;

/// <summary>What is known of an option in every state that things may be in.</summary>
/// <param name="Cost">What it costs.</param>
/// <param name="LikelySavedN">What it likely saves, N.</param>
/// <param name="MeetChance">How likely it meets the limit, over all states; 1 where there is none.</param>
/// <param name="SavedByState">What it saves on average in each state, N; finite.</param>
/// <param name="MeetByState">How likely it meets the limit in each state.</param>
public sealed record Prospect(
    decimal Cost,
    double LikelySavedN,
    double MeetChance,
    IReadOnlyList<double> SavedByState,
    IReadOnlyList<double> MeetByState);

/// <summary>Something that a test could tell.</summary>
/// <param name="Name">What; any name of the caller's.</param>
/// <param name="Answers">For every state, which answer the test gives there.</param>
public sealed record Question<T>(T Name, IReadOnlyList<int> Answers);

/// <summary>What an answer is worth.</summary>
/// <param name="Name">Which question's.</param>
/// <param name="AtMost">What knowing it is worth at most, in the currency of the costs; see <see cref="Measuring"/>. Where nobody says what a
/// newton is worth, what is spent less on average where less will do; null where then nothing is sure enough to be chosen either.</param>
/// <param name="ChangesChoice">How likely the answer changes what is chosen.</param>
public sealed record AnswerWorth<T>(T Name, double? AtMost, double ChangesChoice);

/// <summary>From which value of a newton on an option is the one to choose.</summary>
/// <param name="Option">The option.</param>
/// <param name="FromValuePerNewton">The value from which it is, in the currency of the costs; 0 for the first.</param>
public readonly record struct WorthFrom(int Option, double FromValuePerNewton);

/// <summary>Kinds of advice.</summary>
public enum AdviceVerdict
{
    /// <summary>Neither a limit nor a value was given: only the steps are told.</summary>
    NothingAsked,

    /// <summary>To keep what is there.</summary>
    Keep,

    /// <summary>To take an option.</summary>
    Take,

    /// <summary>What could be measured decides too much to choose with the confidence asked: measure first.</summary>
    MeasureFirst,

    /// <summary>None meets the limit with the confidence asked; the one named comes nearest.</summary>
    NoneMeetsLimit,

    /// <summary>Nothing fits.</summary>
    NothingFits,

    /// <summary>Something is at fault that the option does not mend: to see to that first.</summary>
    RepairFirst,

    /// <summary>It is not known what is at fault, or whether anything is: to find that out first.</summary>
    TestFirst,
}

/// <summary>What to do, and what would change that.</summary>
/// <param name="Verdict">The kind of advice.</param>
/// <param name="Option">The option it is about: to take, to keep, or the best guess before measuring; null where there is none.</param>
/// <param name="BetterFrom">From which value of a newton on which option is the best of those that may be chosen, rising.</param>
/// <param name="Answers">What each question's answer is worth.</param>
public sealed record Advice<T>(
    AdviceVerdict Verdict, int? Option, IReadOnlyList<WorthFrom> BetterFrom, IReadOnlyList<AnswerWorth<T>> Answers)
{
    /// <summary>The same where something comes before buying: nothing is bought before that, and what likely may stay is kept all the same.
    /// </summary>
    /// <param name="before">What comes first.</param>
    public Advice<T> After(BeforeBuying before) => before == BeforeBuying.Nothing
        || Verdict is AdviceVerdict.Keep or AdviceVerdict.NothingFits
            ? this
            : this with { Verdict = before == BeforeBuying.Repair ? AdviceVerdict.RepairFirst : AdviceVerdict.TestFirst };

    /// <summary>The question whose answer most likely changes the choice; null where none does.</summary>
    public AnswerWorth<T>? WorthAsking => Answers
        .Where(answer => answer.ChangesChoice > 0)
        .OrderByDescending(answer => answer.AtMost ?? 0)
        .ThenByDescending(answer => answer.ChangesChoice)
        .FirstOrDefault();
}

/// <summary>Makes advice.</summary>
public static class Advice
{
    private const int Twentieth = 20;

    /// <summary>Advises.</summary>
    /// <remarks>What is taken is chosen on likely savings. Measuring comes first where its answer changes what would be chosen on expected
    /// savings with more chance than the confidence asked leaves, and is worth more than it costs; where that is not known, more than a
    /// twentieth of what is to be spent. Where nothing is likely enough to meet the limit, it comes first where its answer may show that
    /// something is.</remarks>
    /// <param name="options">Every option that may be chosen, keeping what is there among them where that may stay.</param>
    /// <param name="keep">Which of them is keeping what is there; null where that may not stay.</param>
    /// <param name="wish">What is asked.</param>
    /// <param name="chances">The chance of each state.</param>
    /// <param name="questions">What could be asked first.</param>
    /// <param name="testCost">What a test costs; null where not known.</param>
    public static Advice<T> Of<T>(
        IReadOnlyList<Prospect> options,
        int? keep,
        Wish wish,
        IReadOnlyList<double> chances,
        IReadOnlyList<Question<T>> questions,
        decimal? testCost)
    {
        if (options.Count == 0)
        {
            return new Advice<T>(AdviceVerdict.NothingFits, null, [], []);
        }

        Eligible[] now = [.. options.Select(o => new Eligible(o.Cost, o.LikelySavedN, o.MeetChance))];
        int? chosen = Choice.Among(now, wish);
        AnswerWorth<T>[] answers = [.. questions.Select(question => WorthOf(options, wish, chances, question))];
        IReadOnlyList<WorthFrom> betterFrom = BetterFromOf(now, wish);
        decimal spent = chosen is { } one && one != keep ? now[one].Cost : options.Where((_, i) => i != keep).Select(o => o.Cost).DefaultIfEmpty().Min();
        double worthwhile = (double)(testCost ?? (spent / Twentieth));
        bool measure = answers.Any(answer => answer.ChangesChoice > 1 - wish.Confidence
            && (chosen is null || answer.AtMost > worthwhile));
        return new Advice<T>(
            !wish.Decides ? AdviceVerdict.NothingAsked
                : measure ? AdviceVerdict.MeasureFirst
                : chosen is null ? AdviceVerdict.NoneMeetsLimit
                : chosen == keep ? AdviceVerdict.Keep
                : AdviceVerdict.Take,
            wish.Decides ? chosen ?? Choice.Nearest(now) : null,
            betterFrom,
            answers);
    }

    private static AnswerWorth<T> WorthOf<T>(
        IReadOnlyList<Prospect> options, Wish wish, IReadOnlyList<double> chances, Question<T> question)
    {
        if (!wish.Decides)
        {
            return new AnswerWorth<T>(question.Name, null, 0);
        }

        int[] all = [.. Enumerable.Range(0, chances.Count)];
        int? now = ChosenIn(all);
        double changes = all.GroupBy(state => question.Answers[state])
            .Where(answer => ChosenIn([.. answer]) != now)
            .Sum(answer => answer.Sum(state => chances[state]));
        double? atMost = now is null && wish.ValuePerNewton is null
            ? null
            : Measuring.IsWorthAtMost(chances, question.Answers, ChosenIn, NetBenefit);
        return new AnswerWorth<T>(question.Name, atMost, changes);

        int? ChosenIn(IReadOnlyList<int> states) => Choice.Among(
            [.. options.Select(o => new Eligible(o.Cost, Mean(o.SavedByState, states), Mean(o.MeetByState, states)))], wish);

        // Where nothing is sure enough, nothing is bought.
        double NetBenefit(int? option, IReadOnlyList<int> states) => option is { } chosen
            ? ((double)(wish.ValuePerNewton ?? 0) * Mean(options[chosen].SavedByState, states)) - (double)options[chosen].Cost
            : 0;

        double Mean(IReadOnlyList<double> of, IReadOnlyList<int> states) =>
            states.Sum(state => chances[state] * of[state]) / states.Sum(state => chances[state]);
    }

    private static IReadOnlyList<WorthFrom> BetterFromOf(Eligible[] options, Wish wish)
    {
        int[] may = [.. Enumerable.Range(0, options.Length)
            .Where(i => !wish.HasLimit || options[i].MeetChance >= wish.Confidence)];
        Frontier frontier = Frontier.Of([.. may.Select(i => new CostEffect(options[i].Cost, options[i].SavedN))]);
        return
        [
            .. frontier.Corners.Take(1).Select(corner => new WorthFrom(may[corner], 0)),
            .. frontier.Steps.Select(step => new WorthFrom(may[step.To], step.Ratio)),
        ];
    }
}
