using System.Diagnostics;
using CableCatalog.Client.Files;

namespace CableCatalog.Client.Tests.Files;

/// <summary>Files that are not what is expected, and large.</summary>
public sealed class LargeFileTests : IDisposable
{
    // On a busy machine; to count the place of every column from the start of the line takes several times that on a quiet one.
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(30);

    private readonly string _file = Path.GetTempFileName();

    [Fact]
    public void A_first_line_of_many_columns_is_told_of_soon()
    {
        string text = string.Concat(Enumerable.Repeat("x,", 300_000)) + "\n";
        File.WriteAllText(_file, text);
        var watch = Stopwatch.StartNew();

        Assert.Equal(ProblemList.Most, GradePriceFile.Parse("prices.csv", text).Problems.Count);
        Assert.Equal(ProblemList.Most, BatchFile.Read(_file).Problems.Count);
        Assert.InRange(watch.Elapsed, TimeSpan.Zero, Soon);
    }

    [Fact]
    public void However_many_problems_there_are_the_first_of_the_file_are_kept()
    {
        var problems = new ProblemList("prices.csv");
        foreach (int line in Enumerable.Range(1, 100_000).Reverse())
        {
            problems.Add(new TextPlace(line, 1), "wrong");
            problems.Add(new FileProblem("other.yaml", line, 1, "wrong too"));
        }

        IReadOnlyList<FileProblem> shown = problems.Result<string>(null).Problems;
        Assert.Equal(Enumerable.Range(1, ProblemList.Most), shown.Select(problem => problem.Line));
        Assert.All(shown, problem => Assert.Equal("prices.csv", problem.File));
    }

    public void Dispose() => File.Delete(_file);
}
