using System.Globalization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>Threads that each write two grades of their own and one that is common to all, in one write: all three get the number
/// after the common grade's, as their display name. So a lost write, a half-made one and a lost update all show.</summary>
internal static class Contention
{
    /// <summary>The grade that everybody writes.</summary>
    internal const string Common = "common";

    /// <summary>The grades of one thread.</summary>
    internal static string[] OwnOf(int thread) => [$"t{thread}-first", $"t{thread}-last"];

    /// <summary>All grades, of number 0.</summary>
    internal static Grade[] Grades(int threads) =>
    [
        TestGrades.Bare(Common) with { DisplayName = "0" },
        .. Enumerable.Range(0, threads).SelectMany(OwnOf).Select(id => TestGrades.Full(id) with { DisplayName = "0" }),
    ];

    /// <summary>The number of the last write of a grade.</summary>
    internal static long NumberOf(CatalogSnapshot catalog, string id) => NumberOf(catalog.Find(id)!.Grade);

    /// <summary>Writes from all threads; prints "THREAD NUMBER" for each write that was acknowledged.</summary>
    internal static void WriteForEver(ICatalogStore store, int threads)
    {
        Thread[] writers =
        [
            .. Enumerable.Range(0, threads).Select(thread => new Thread(() =>
            {
                while (true)
                {
                    long number = NumberOf(store.Write(before => NextOf(before, thread), CancellationToken.None), OwnOf(thread)[0]);
                    TestChild.Tell($"{thread} {number}");
                }
            })),
        ];
        Array.ForEach(writers, writer => writer.Start());
        Array.ForEach(writers, writer => writer.Join());
    }

    /// <summary>The writes that the journal has after a number, in order: the thread and the number of each. Fails where one
    /// is not whole.</summary>
    internal static (int Thread, long Number)[] WrittenAfter(ICatalogStore store, long number)
    {
        // Number 0 is revision 1.
        IReadOnlyList<JournalEntry> entries =
            store.Journal(number + 2, store.Current.Revision, CancellationToken.None);
        return [.. entries.Select(entry =>
        {
            Grade[] written = [.. entry.Changes.Cast<EntryChange.OfGrade>().Select(change => change.After!.Grade)];
            int thread = int.Parse(written[^1].Id[1..written[^1].Id.IndexOf('-', StringComparison.Ordinal)], CultureInfo.InvariantCulture);
            Assert.Equal([Common, .. OwnOf(thread)], written.Select(grade => grade.Id));
            Assert.All(written, grade => Assert.Equal(entry.Revision - 1, NumberOf(grade)));
            return (thread, entry.Revision - 1);
        })];
    }

    private static CatalogChange NextOf(CatalogSnapshot before, int thread)
    {
        string next = (NumberOf(before, Common) + 1).ToString(CultureInfo.InvariantCulture);
        string[] ids = [Common, .. OwnOf(thread)];
        return new CatalogChange([.. ids.Select(id => before.Find(id)!.Grade with { DisplayName = next })], []);
    }

    private static long NumberOf(Grade grade) => long.Parse(grade.DisplayName, CultureInfo.InvariantCulture);
}
