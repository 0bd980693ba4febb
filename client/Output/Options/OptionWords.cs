using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Options in words, the same in tables and on pages.</summary>
internal static class OptionWords
{
    /// <summary>What the frontier is.</summary>
    public const string Frontier =
        "On the frontier is what is the best buy for some value of a pound. All else is beaten: by one that costs no more and saves no "
            + "less, or by a mix of a cheaper one with a dearer one.";

    /// <summary>What the chances are.</summary>
    public const string Chances =
        "Chances count everything that is given as low, likely and high, each triangular between them: assumed, as the bands are.";

    /// <summary>A chance, never shown as certain unless it is.</summary>
    public static string Chance(double chance) => chance switch
    {
        >= 1 - 1e-9 => "100 %",
        > 0.99 => "over 99 %",
        <= 1e-9 => "0 %",
        < 0.01 => "under 1 %",
        _ => chance.ToString("0 %", CultureInfo.InvariantCulture),
    };

    /// <summary>The same for a column, where there is little room.</summary>
    public static string ShortChance(double chance) =>
        Chance(chance).Replace("over ", ">", StringComparison.Ordinal).Replace("under ", "<", StringComparison.Ordinal);

    /// <summary>A pound or a newton, in words.</summary>
    public static string OneForce(Figures figures) => figures.ForceUnit == "lbf" ? "pound" : "newton";

    /// <summary>What an option saves, without its unit; empty where it has no figure.</summary>
    public static string Saved(WeighedOption option, string apart, Figures figures) => option.SavingVerdict switch
    {
        SavingVerdict.FreesALockedCable => "frees a lock",
        _ when option.KeepsAll => "",
        SavingVerdict.SavesNothing => $"saves nothing{apart}({Number(option.SavedN.HasLikely, option.SavedN.Likely, figures)})",
        SavingVerdict.Saves or SavingVerdict.MaySaveNothing =>
            $"{Number(option.SavedN.HasLikely, option.SavedN.Likely, figures)}{apart}"
                + $"({Number(option.SavedN.HasLow, option.SavedN.Low, figures)} to "
                + $"{Number(option.SavedN.HasHigh, option.SavedN.High, figures)})",
        _ => "",
    };

    /// <summary>Where an option stands, by the numbers of others.</summary>
    public static string Standing(WeighedOption option) => option.Standing switch
    {
        FrontierStanding.OnFrontier => "frontier",
        FrontierStanding.Dominated => $"{option.DominatedBy}",
        FrontierStanding.ExtendedlyDominated => $"{option.DominatedBy}+{option.DominatedWith}",
        _ => "no fit",
    };

    /// <summary>Why an option cannot be taken.</summary>
    public static string Problem(OptionProblem problem, Figures figures) => problem.ProblemCase switch
    {
        OptionProblem.ProblemOneofCase.Fit => FitWords.Of(problem.Fit, figures),
        OptionProblem.ProblemOneofCase.PresentMayLock => "the present cable may lock",
        OptionProblem.ProblemOneofCase.PresentTooShortM =>
            $"the present cable is {figures.ShortLength(problem.PresentTooShortM)} too short for it",
        OptionProblem.ProblemOneofCase.ArmFallsShortRad =>
            $"the arm would turn {Figures.FineAngle(problem.ArmFallsShortRad)} less than it has to",
        OptionProblem.ProblemOneofCase.ArmOverRuns => "the arm would be taken past 90 degrees from its cable",
        OptionProblem.ProblemOneofCase.MotionUnknownRatio =>
            $"the arm would turn {Percent(problem.MotionUnknownRatio)} as far as now, and without the helm's sweep nobody can tell whether "
                + "that is enough: give the sweep",
        OptionProblem.ProblemOneofCase.NotOffered => "the price list does not offer it",
        OptionProblem.ProblemOneofCase.MayLockUnseen =>
            "it is not known whether it locks in push, as the present cable may; of others it is known that they do not",
        _ => "for a reason that this client has no words for: it is older than the server",
    };

    /// <summary>What a line of the bill of an option is for.</summary>
    public static string BillLine(BillLine line, WeighedOption option) => line.Item switch
    {
        BillItem.Cable => $"cable {option.GradeDisplayName}",
        BillItem.Fittings => "fittings",
        BillItem.Parts => $"parts: {line.About}",
        _ => line.About.Length > 0 ? $"labour: {line.About}" : "labour: put the cable in",
    };

    /// <summary>What an option is compared with.</summary>
    public static string With(ComparedWith with) => with switch
    {
        ComparedWith.Present => "keeping everything",
        ComparedWith.CheapestThatWorks => "the cheapest that works",
        ComparedWith.Reroute => "re-routing the present cable",
        _ => "another",
    };

    /// <summary>An option against another, in a few words.</summary>
    public static string Against(OptionComparison comparison, Figures figures)
    {
        decimal extra = MoneyText.ToDecimal(comparison.ExtraCost);
        string cost = extra switch
        {
            0 => "as much",
            > 0 => $"{Amount(extra)} more",
            _ => $"{Amount(-extra)} less",
        };
        if (!comparison.HasExtraSavedN)
        {
            return $"costs {cost}";
        }

        double savedN = comparison.ExtraSavedN;
        string saved = Math.Abs(savedN) < 1e-6 ? "saves as much"
            : savedN > 0 ? $"saves {figures.Force(savedN)} more"
            : $"saves {figures.Force(-savedN)} less";
        string each = comparison.ExtraCostPerNewton is { } ratio
            ? $", {figures.PerForce(ratio)} {ratio.CurrencyCode} a {OneForce(figures)} more"
            : "";
        return $"costs {cost}, {saved}{each}";
    }

    /// <summary>Effort in the worst load case, with its unit.</summary>
    public static string Effort(ForceBand effortN, Figures figures) =>
        effortN.HasLikely ? figures.Force(effortN.Likely) : "a locked cable";

    /// <summary>An amount, two decimals.</summary>
    public static string Amount(decimal amount) => amount.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Number(bool has, double forceN, Figures figures) => has ? figures.ForceNumber(forceN) : "no limit";

    private static string Percent(double share) => share.ToString("0 %", CultureInfo.InvariantCulture);
}
