using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>An installation and its options, weighed.</summary>
/// <param name="Answer">The service's answer.</param>
/// <param name="Installation">The installation.</param>
/// <param name="ValuePerNewton">What a newton is worth to the owner; null where not said.</param>
internal sealed record WeighedControl(
    WeighOptionsResponse Answer, Installation Installation, Google.Type.Money? ValuePerNewton)
{
    /// <summary>The owner's limit, N; null where there is none.</summary>
    public double? LimitN => Installation.HasEffortLimitN ? Installation.EffortLimitN : null;

    /// <summary>"up to " where all the excess in a measured effort was taken to be the cable's.</summary>
    public string UpTo => Answer.PresentCable.Basis == BaselineBasis.Measured ? "up to " : "";

    /// <summary>Whether what is there now may stay, and so is on the frontier or beaten.</summary>
    public bool MayKeep => Answer.Options.Count > 0 && Answer.Options[0].Standing != FrontierStanding.Unspecified;

    /// <summary>Options on the frontier by their place, the cheapest first.</summary>
    public IEnumerable<int> OnFrontier => Answer.Options.Index()
        .Where(option => option.Item.Standing == FrontierStanding.OnFrontier)
        .Select(option => option.Index)
        .OrderBy(Cost);

    /// <summary>The letter that a change goes by in a table.</summary>
    public string Letter(string change) =>
        ((char)('a' + Installation.Changes.Select(c => c.DisplayName).ToList().IndexOf(change))).ToString();

    /// <summary>The number that another route goes by; the present one is 1.</summary>
    public int RouteNumber(string route) => 2 + Installation.OtherRoutes.Select(o => o.DisplayName).ToList().IndexOf(route);

    /// <summary>What an option is, in full and with the names that people use.</summary>
    public string Name(int option) => Named(
        option,
        "present cable, ",
        named => named.GradeDisplayName,
        route => $"route {RouteNumber(route)} ({route})",
        change => change,
        " + ");

    /// <summary>What an option is, by its grade's id and by the numbers and letters of <see cref="Key"/>.</summary>
    public string ShortName(int option) => Named(
        option, "", named => Files.GradeName.ToId(named.Grade), route => $"route {RouteNumber(route)}", Letter, " ");

    /// <summary>What the numbers of routes and the letters of changes stand for; nothing where there are none.</summary>
    public IEnumerable<string> Key()
    {
        if (Installation.OtherRoutes.Count > 0)
        {
            yield return "Routes: 1 present, "
                + string.Join(", ", Installation.OtherRoutes.Select(o => $"{RouteNumber(o.DisplayName)} {o.DisplayName}")) + ".";
        }

        if (Installation.Changes.Count > 0)
        {
            yield return "Changes: "
                + string.Join(", ", Installation.Changes.Select(c => $"{Letter(c.DisplayName)} {c.DisplayName}")) + ".";
        }
    }

    /// <summary>The effort in every load: what it is, whether it decides, and what it is now and with some options. Nothing where there is
    /// one load only.</summary>
    public IEnumerable<(string Load, ForceBand[] EffortsN)> Loads(params IReadOnlyList<int> options) =>
        Installation.LoadCases.Count < 2
            ? []
            : Installation.LoadCases.Select((load, i) => (
                load.DisplayName + (load.Direction == Direction.Push ? ", push" : ", pull") + (load.ShownOnly ? ", shown only" : ""),
                options.Select(option => Answer.Options[option].CaseEfforts[i].EffortN).ToArray()));

    private string Named(
        int option,
        string presentCable,
        Func<WeighedOption, string> gradeOf,
        Func<string, string> route,
        Func<string, string> change,
        string between)
    {
        WeighedOption named = Answer.Options[option];
        if (named.KeepsAll)
        {
            return "keep everything";
        }

        string grade = gradeOf(named);
        string cable = named.Route.Length == 0 ? grade
            : grade.Length == 0 ? presentCable + route(named.Route)
            : $"{grade}, {route(named.Route)}";
        return string.Join(between, named.Changes.Select(change).Prepend(cable).Where(part => part.Length > 0));
    }

    /// <summary>What an option costs.</summary>
    public decimal Cost(int option) => Files.MoneyText.ToDecimal(Answer.Options[option].Bill.Total);
}
