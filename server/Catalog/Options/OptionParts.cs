using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Options;

/// <summary>What an option changes.</summary>
/// <param name="Route">The route.</param>
/// <param name="Grade">The new cable; null where the present one stays.</param>
/// <param name="Changes">What else is changed, in the order of the installation; no two exclude each other.</param>
public sealed record OptionParts(OptionRoute Route, CatalogGrade? Grade, IReadOnlyList<Change> Changes)
{
    /// <summary>Whether everything stays as it is.</summary>
    public bool KeepsAll => Route.IsPresent && Grade is null && Changes.Count == 0;

    /// <summary>Whether the arm may turn further, or less far, than before.</summary>
    public bool ChangesMotion => Changes.Any(change => change.Effect.ChangesMotion);

    /// <summary>What becomes of everything but the cable. Bends that are hidden in the present route stay with it.</summary>
    public Setting AppliedTo(Setting setting) => KeepsAll ? setting : setting with
    {
        Chain = AppliedTo(setting.Chain),
        HiddenShare = Route.IsPresent ? setting.HiddenShare : 0,
    };

    /// <summary>The chain as changed.</summary>
    public Chain AppliedTo(Chain chain) =>
        Changes.Aggregate(chain.Along(Route.Way), (changed, change) => change.Effect.AppliedTo(changed));

    /// <summary>Every option of an installation with some grades: keeping everything first, then by route, cable and changes.</summary>
    internal static IEnumerable<OptionParts> All(Installation installation, IReadOnlyCollection<CatalogGrade> grades) =>
        from route in OptionRoute.Of(installation)
        from grade in grades.Prepend(null)
        from changes in Together(installation.Changes)
        select new OptionParts(route, grade, changes);

    /// <summary>How many options there are with so many grades.</summary>
    internal static long Count(Installation installation, int grades) =>
        (installation.Routes.Others.Count + 1L) * (grades + 1L) * Together(installation.Changes).Count();

    // Every set of changes that go together, the smallest first.
    private static IEnumerable<Change[]> Together(IReadOnlyList<Change> changes) =>
        Enumerable.Range(0, 1 << changes.Count)
            .Select(set => changes.Where((_, i) => (set >> i & 1) == 1).ToArray())
            .Where(set => set.Index().All(one => set.Skip(one.Index + 1).All(one.Item.GoesWith)))
            .OrderBy(set => set.Length);
}
