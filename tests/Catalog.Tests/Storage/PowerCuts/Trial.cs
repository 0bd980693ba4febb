using System.Globalization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>What came of opening the catalogue after many power cuts.</summary>
/// <param name="Cuts">Moments.</param>
/// <param name="States">Different states of the disk that were opened.</param>
/// <param name="After">In how many of them the write that was not acknowledged was found.</param>
/// <param name="Failures">Where the promise was broken, in words.</param>
internal sealed record TrialResult(int Cuts, int States, int After, IReadOnlyList<string> Failures);

/// <summary>Cuts the power after every system call of a trace and opens what is left.</summary>
/// <param name="Folder">Below which the traced process worked.</param>
/// <param name="Catalog">Where in it the catalogue was.</param>
/// <param name="Grades">How many grades it has.</param>
internal sealed record Trial(string Folder, string Catalog, int Grades)
{
    // More where the table of figures is made.
    private static readonly int ByChance = DurabilityTable.IsAskedFor ? 8 : 4;

    /// <summary>The revision that is on disk at the beginning; 0: there is no catalogue.</summary>
    internal long FirstRevision { get; init; } = 1;

    /// <summary>The revision at which its grades were made, before any was named after one.</summary>
    internal long MadeAt { get; init; } = 1;

    /// <summary>What else must be so of a catalogue that was found at a path.</summary>
    internal Action<string, CatalogSnapshot> Also { get; init; } = (_, _) => { };

    /// <summary>Opens what may be left at every moment.</summary>
    /// <param name="before">What was on disk at the beginning.</param>
    /// <param name="calls">What was done.</param>
    /// <param name="seed">Of what is kept by chance.</param>
    internal TrialResult Run(DiskModel before, IEnumerable<SystemCall> calls, int seed)
    {
        string place = Path.Combine(FastFolder(), $"catalogue-cut-{Guid.NewGuid():N}");
        var random = new Random(seed);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var failures = new List<string>();
        (int cuts, int after) = (0, 0);
        long acknowledged = FirstRevision;
        try
        {
            foreach (SystemCall call in calls)
            {
                if (!before.Apply(call))
                {
                    continue;
                }

                cuts++;
                acknowledged = call is SystemCall.Acknowledge told ? told.Revision : acknowledged;
                foreach (PowerCut cut in PowerCut.At(before, random, ByChance))
                {
                    if (!seen.Add(cut.Hash() + acknowledged))
                    {
                        continue;
                    }

                    cut.WriteTo(place, Folder);
                    try
                    {
                        string moved = Path.Combine(place, Path.GetRelativePath(Folder, Catalog));
                        after += Open(moved, acknowledged, goesOn: seen.Count % 4 == 0) > acknowledged ? 1 : 0;
                    }
                    catch (Exception broken)
                    {
                        failures.Add(string.Create(
                            CultureInfo.InvariantCulture,
                            $"cut {cuts} after {call}, {cut.How}, {acknowledged} acknowledged: {broken.Message}"));
                    }
                }
            }
        }
        finally
        {
            if (Directory.Exists(place))
            {
                Directory.Delete(place, recursive: true);
            }
        }

        return new TrialResult(cuts, seen.Count, after, failures);
    }

    // Returns the revision that was found.
    private long Open(string path, long acknowledged, bool goesOn)
    {
        if (acknowledged == 0 && !LiteCatalogStore.Exists(path))
        {
            using LiteCatalogStore made = LiteCatalogStore.Create(path, TestGrades.Some(Grades), "test", TimeProvider.System);
            TestGrades.RequireWhole(made.Current, Grades);
            return 0;
        }

        long revision;
        using (LiteCatalogStore store = LiteCatalogStore.Open(path, "test", TimeProvider.System, TimeSpan.Zero))
        {
            RequirePromise(store.Current, acknowledged);
            store.TakeOwnership();
            RequirePromise(store.Current, acknowledged);
            revision = store.Current.Revision;
            Also(path, store.Current);
            if (goesOn)
            {
                store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
            }
        }

        if (goesOn)
        {
            using LiteCatalogStore again = LiteCatalogStore.Open(path, "test", TimeProvider.System, TimeSpan.Zero);
            again.TakeOwnership();
            TestGrades.RequireWhole(again.Current, Grades, MadeAt);
            Assert.Equal(revision + 1, again.Current.Revision);
            Also(path, again.Current);
        }

        return revision;
    }

    private void RequirePromise(CatalogSnapshot catalog, long acknowledged)
    {
        TestGrades.RequireWhole(catalog, Grades, MadeAt);
        Assert.InRange(catalog.Revision, acknowledged, acknowledged + 1);
    }

    // In memory where that can be had: the store waits for the disk at every opening.
    private static string FastFolder() => Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath();
}
