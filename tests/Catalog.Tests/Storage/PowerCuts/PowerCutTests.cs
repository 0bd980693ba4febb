namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>What a power cut may leave of a catalogue, from the system calls that a real process made.</summary>
public class PowerCutTests
{
    private const int Grades = 30;
    private const int Writes = 30;

    [Fact]
    public void A_power_cut_while_grades_are_written_loses_no_acknowledged_write()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Strace.Run(
            catalog.Folder, TestChild.Command(TestChild.Embedded, catalog.Path, ChildJob.Rename, Writes));

        TrialResult result = new Trial(catalog.Folder, catalog.Path, Grades).Run(disk, calls, 20310304);

        Assert.Equal(Writes, calls.OfType<SystemCall.Acknowledge>().Count());
        Console.WriteLine($"{result.Cuts} cuts, {result.States} states, {result.After} after");
        Require(result);
    }

    private static void Require(TrialResult result) =>
        Assert.True(result.Failures.Count == 0, $"{result.Failures.Count} failures: {string.Join("\n", result.Failures.Take(20))}");
}
