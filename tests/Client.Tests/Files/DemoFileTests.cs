using System.Text;
using CableCatalog.Client.Files;

namespace CableCatalog.Client.Tests.Files;

public class DemoFileTests
{
    private static readonly string Folder = FindFolder();

    public static TheoryData<string> Installations =>
        [.. Directory.GetFiles(Folder, "*-*.yaml").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void There_are_six_installations() => Assert.Equal(6, Installations.Count);

    [Theory]
    [MemberData(nameof(Installations))]
    public void Every_installation_reads_without_a_problem(string file) =>
        Assert.Empty(InstallationFile.Read(Path.Combine(Folder, file)).Problems);

    public static TheoryData<string> WeightTests =>
    [
        .. Directory.GetFiles(Path.Combine(Folder, "weight-tests"), "*.yaml")
            .Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(WeightTests))]
    public void Every_weight_test_reads_without_a_problem(string file) =>
        Assert.Empty(WeightTestFile.Read(Path.Combine(Folder, "weight-tests", file)).Problems);

    [Fact]
    public void The_grades_read_without_a_problem()
    {
        FileResult<GradeDocument> read = GradeFile.Read(Path.Combine(Folder, "grades.yaml"));

        Assert.Empty(read.Problems);
        Assert.Equal(11, read.Value!.Grades.Count);
        Assert.Contains("Invented", read.Value.About, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_file_says_at_its_top_that_it_is_invented() =>
        Assert.All(
            Directory.GetFiles(Folder, "*.yaml", SearchOption.AllDirectories),
            f => Assert.StartsWith("# Invented demonstration data", File.ReadAllText(f), StringComparison.Ordinal));

    // Truncated anywhere and with any bytes changed, a file gives a message or problems, and never an exception.
    [Theory]
    [InlineData("dunlin-shift.yaml")]
    [InlineData("grades.yaml")]
    public void A_file_cut_at_any_byte_gives_a_message_or_problems(string file)
    {
        byte[] bytes = File.ReadAllBytes(Path.Combine(Folder, file));
        int step = 1 + (bytes.Length / 1500);
        for (int length = 0; length < bytes.Length; length += step)
        {
            ReadAll(bytes[..length]);
        }
    }

    [Theory]
    [InlineData("dunlin-shift.yaml", 1)]
    [InlineData("plover-deflector.yaml", 2)]
    [InlineData("grades.yaml", 3)]
    public void A_file_with_bytes_changed_gives_a_message_or_problems(string file, int seed)
    {
        byte[] bytes = File.ReadAllBytes(Path.Combine(Folder, file));
        byte[] special = [.. "\t\n\r :,-?[]{}#&*!|>'\"%@`~\\/=.0eE\0"u8, 0xC2, 0x85, 0xFF, 0xEF, 0xBB, 0xBF];
        var random = new Random(seed);
        for (int i = 0; i < 500; i++)
        {
            byte[] changed = (byte[])bytes.Clone();
            int edits = random.Next(1, 6);
            for (int k = 0; k < edits; k++)
            {
                changed[random.Next(changed.Length)] =
                    random.Next(2) == 0 ? special[random.Next(special.Length)] : (byte)random.Next(256);
            }

            ReadAll(changed);
        }
    }

    private static void ReadAll(byte[] bytes)
    {
        string text = Encoding.UTF8.GetString(bytes);
        AssertEither(InstallationFile.Parse("f", text));
        AssertEither(GradeFile.Parse("f", text));
        AssertEither(GradeEdit.Parse("f", text));
        AssertEither(GradePriceFile.Parse("f", text));
        AssertEither(WeightTestFile.Parse("f", text));
    }

    private static void AssertEither<T>(FileResult<T> read)
        where T : class
    {
        Assert.Equal(read.Value is null, read.Problems.Count > 0);
        Assert.InRange(read.Problems.Count, 0, ProblemList.Most);
        Assert.All(read.Problems, p => Assert.DoesNotContain('\n', p.ToString()));
    }

    private static string FindFolder()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !Directory.Exists(Path.Combine(at.FullName, "catalog-demo")))
        {
            at = at.Parent;
        }

        return Path.Combine(at!.FullName, "catalog-demo");
    }
}
