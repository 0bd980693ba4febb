using System.Runtime.Intrinsics;

namespace CableCatalog.Catalog.Scoring;

/// <summary>Keys of four grades in a ranking, as far as they are known without scoring them: the least first, by group and then by
/// value.</summary>
/// <param name="Group">The groups, exact.</param>
/// <param name="Least">The least that the values may be.</param>
/// <param name="Most">The most that they may be.</param>
internal readonly record struct KeyBands(Vector256<double> Group, Vector256<double> Least, Vector256<double> Most)
{
    /// <summary>These where a mask is set, others where it is not.</summary>
    public KeyBands Where(Vector256<double> mask, in KeyBands others) => new(
        Vector256.ConditionalSelect(mask, Group, others.Group),
        Vector256.ConditionalSelect(mask, Least, others.Least),
        Vector256.ConditionalSelect(mask, Most, others.Most));

    /// <summary>Values known to within a share of them, in the first group.</summary>
    public static KeyBands Within(Vector256<double> values, double error) =>
        new(Vector256<double>.Zero, values * (1 - error), values * (1 + error));

    /// <summary>The same values in later groups.</summary>
    public KeyBands Plus(Vector256<double> groups) => this with { Group = Group + groups };

    /// <summary>The same values in another group.</summary>
    public KeyBands In(double group) => this with { Group = Vector256.Create(group) };

    /// <summary>Which of the four may be among the least of a list, as bits.</summary>
    public uint Within(Shortlist list)
    {
        var group = Vector256.Create(list.LastGroup);
        return (Vector256.LessThan(Group, group)
                | (Vector256.Equals(Group, group) & Vector256.LessThan(Least, Vector256.Create(list.LastMost))))
            .ExtractMostSignificantBits();
    }
}
