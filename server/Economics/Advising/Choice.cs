namespace CableCatalog.Economics.Advising;

/// <summary>What an owner asks of an option.</summary>
/// <param name="HasLimit">Whether there is a limit of effort to meet.</param>
/// <param name="Confidence">How likely the limit must be met, 0.5 to 0.999.</param>
/// <param name="ValuePerNewton">What a newton less at the hand is worth, in the currency of the costs, >= 0; null where not said.
/// </param>
public sealed record Wish(bool HasLimit, double Confidence, decimal? ValuePerNewton)
{
    /// <summary>Whether it decides anything.</summary>
    public bool Decides => HasLimit || ValuePerNewton is not null;
}

/// <summary>An option as the choice sees it.</summary>
/// <param name="Cost">What it costs.</param>
/// <param name="SavedN">What it saves, N.</param>
/// <param name="MeetChance">How likely it meets the limit; 1 where there is none.</param>
public readonly record struct Eligible(decimal Cost, double SavedN, double MeetChance);

/// <summary>The rule of choice: of the options that meet the limit with the confidence asked, the one of most value * saved - cost, and
/// of equals the cheapest. Where nobody says what a newton is worth, that is the cheapest that meets the limit.</summary>
public static class Choice
{
    /// <summary>The chosen option; null where the wish decides nothing or none meets the limit.</summary>
    public static int? Among(IReadOnlyList<Eligible> options, Wish wish)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(wish);
        if (!wish.Decides)
        {
            return null;
        }

        double valuePerN = (double)(wish.ValuePerNewton ?? 0);
        int? best = null;
        foreach ((int index, Eligible option) in options.Index())
        {
            if (wish.HasLimit && option.MeetChance < wish.Confidence)
            {
                continue;
            }

            if (best is not { } other || IsBetter(option, options[other]))
            {
                best = index;
            }
        }

        return best;

        bool IsBetter(Eligible option, Eligible than)
        {
            double gain = (valuePerN * (option.SavedN - than.SavedN)) - (double)(option.Cost - than.Cost);
            return gain != 0 ? gain > 0 : option.Cost < than.Cost || (option.Cost == than.Cost && option.SavedN > than.SavedN);
        }
    }

    /// <summary>The option that comes nearest to a limit that none meets: the most likely to meet it, of equals the one that saves
    /// most.</summary>
    public static int? Nearest(IReadOnlyList<Eligible> options) => options.Count == 0
        ? null
        : options.Index().OrderByDescending(option => option.Item.MeetChance)
            .ThenByDescending(option => option.Item.SavedN).ThenBy(option => option.Item.Cost).First().Index;
}
