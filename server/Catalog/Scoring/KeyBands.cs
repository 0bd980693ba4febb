using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace CableCatalog.Catalog.Scoring;

/// <summary>Keys of eight grades in a ranking, as far as they are known without scoring them: the least first, by group and then by
/// value.</summary>
/// <param name="Group">The groups, exact.</param>
/// <param name="Least">The least that the values may be.</param>
/// <param name="Most">The most that they may be.</param>
internal readonly record struct KeyBands(Vector512<double> Group, Vector512<double> Least, Vector512<double> Most)
{
    /// <summary>These where a mask is set, others where it is not.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public KeyBands Where(Vector512<double> mask, KeyBands others) => new(
        Vector512.ConditionalSelect(mask, Group, others.Group),
        Vector512.ConditionalSelect(mask, Least, others.Least),
        Vector512.ConditionalSelect(mask, Most, others.Most));

    /// <summary>Values known to within a share of them, in the first group.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static KeyBands Within(Vector512<double> values, double error) =>
        new(Vector512<double>.Zero, values * (1 - error), values * (1 + error));

    /// <summary>The same values in later groups.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public KeyBands Plus(Vector512<double> groups) => this with { Group = Group + groups };

    /// <summary>The same values in another group.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public KeyBands In(double group) => this with { Group = Vector512.Create(group) };

    /// <summary>Which of the eight may be among the least of a list, as bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public uint Within(Shortlist list)
    {
        var group = Vector512.Create(list.LastGroup);
        return (uint)(Vector512.LessThan(Group, group)
                | (Vector512.Equals(Group, group) & Vector512.LessThan(Least, Vector512.Create(list.LastMost))))
            .ExtractMostSignificantBits();
    }
}
