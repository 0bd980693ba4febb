using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Files;
using CableCatalog.Client.Tests.Commands;
using CableCatalog.Client.Units;
using CableCatalog.Service.Hosting;
using CableCatalog.Tests.Fuzz;
using Xunit.Abstractions;

namespace CableCatalog.Client.Tests.Fuzz;

/// <summary>These tests measure time and memory: nothing else runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;

/// <summary>Whatever stands in a file, reading it gives what it says or the places where it is wrong, soon.</summary>
[Collection(nameof(Alone))]
public sealed class ParserFuzzTests : IDisposable
{
    private const string Head = "| | inputs | read | told what is wrong | slowest, s | s in all | MiB held more than before | working set's peak, MiB |";

    // Files are at most 32 MiB; a tree of one is some times that.
    private const long MostHeldMiB = 128;
    private const long MostPeakMiB = 1536;

    private static readonly TimeSpan Slow = TimeSpan.FromSeconds(5);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cablecatalog-fuzz-");
    private readonly ITestOutputHelper _output;

    public ParserFuzzTests(ITestOutputHelper output)
    {
        _output = output;
        string demo = Repository.At("catalog-demo");
        foreach (string file in Directory.EnumerateFiles(demo, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(_folder.FullName, Path.GetRelativePath(demo, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }

    /// <summary>What is read, how many inputs it has, and files of the demo to spoil.</summary>
    public static TheoryData<string, int, string> Files => new()
    {
        { "installation", 3500, "dunlin-shift.yaml plover-deflector.yaml plover-options.yaml plover-routes.yaml" },
        { "route", 3000, "routes/dunlin-throttle-pieces.yaml routes/plover-measured.yaml routes/plover-side-deck.yaml" },
        { "weight test", 2500, "weight-tests/dunlin-shift.yaml weight-tests/plover-after.yaml weight-tests/stern-station.yaml" },
        { "grades", 2500, "grades.yaml grades.json" },
        { "grade edit", 1500, "edit.yaml" },
        { "grade prices", 1500, "prices.csv" },
        { "dealer's prices", 2000, "prices/autumn.csv prices/mail-order.csv" },
        { "batch", 1000, "season.csv" },
    };

    /// <summary>Texts that are not files, with an example.</summary>
    public static TheoryData<string, string> Texts => new()
    {
        { "length", "4 ft 6 in" }, { "force", "38 lbf" }, { "bending stiffness", "0.12 N m2" }, { "ratio", "0.95" }, { "date", "2026-10-01" },
        { "money", "21.00" }, { "assignment", "price.base=30 USD" },
    };

    [Theory]
    [MemberData(nameof(Files))]
    public void Any_file_is_read_or_told_what_is_wrong_where(string kind, int inputs, string demo)
    {
        MakeMore();
        (string Name, string Text)[] bases = [.. demo.Split(' ').Select(name => (name, File.ReadAllText(At(name))))];
        Run(kind, inputs, random =>
        {
            (string name, string text) = bases[random.Next(bases.Length)];
            byte[] bytes = new TextMutator(random).SpoiltBytes(text);
            string spoilt = At(Path.Combine(Path.GetDirectoryName(name)!, "spoilt" + Path.GetExtension(name)));
            File.WriteAllBytes(spoilt, bytes);
            return (bytes, () => Judge(Read(kind, spoilt), bytes));
        });
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void Any_text_is_read_or_told_what_is_wrong(string kind, string example) => Run(kind, 500, random =>
    {
        string text = new TextMutator(random).Spoilt(example);
        return (Encoding.UTF8.GetBytes(text), () => IsRead(kind, text));
    });

    [Fact]
    public void Any_backup_is_read_whole_or_refused()
    {
        byte[] whole = Backup();
        Run("backup", 1500, random =>
        {
            byte[] bytes = random.Next(2) == 0
                ? new TextMutator(random).Flipped(whole)
                : Sealed(new TextMutator(random).Spoilt(Unsealed(whole)));
            return (bytes, () =>
            {
                try
                {
                    using var stream = new MemoryStream(bytes);
                    CatalogContents contents = CatalogBackup.Read("a backup", stream);
                    return (contents.Journal.Count > 0, []);
                }
                catch (CatalogStoreException refused)
                {
                    return (false, refused.Fault == StoreFault.Damaged ? [] : [$"{refused.Fault}"]);
                }
            });
        });
    }

    public void Dispose() => _folder.Delete(recursive: true);

    // A catalogue of the demo's grades with a key that was written later: grades, a key and two entries of its journal.
    private byte[] Backup()
    {
        using LiteCatalogStore store = CatalogSetup.Create(At("catalog.db"), CatalogChoice.DemoGrades(), "the tests of files", TimeProvider.System);
        foreach (string id in new[] { "one", "two" })
        {
            store.Write(
                new WriteOrigin("a test"),
                catalog => AccessKeyEdits.Create(catalog, new AccessKey(id, "Test", AccessRole.Reader, new string('0', 64), null, null)),
                CancellationToken.None);
        }

        using var text = new MemoryStream();
        CatalogBackup.Write(store, text, CancellationToken.None);
        return text.ToArray();
    }

    // Without its last line, the checksum.
    private static string Unsealed(byte[] backup)
    {
        string text = Encoding.UTF8.GetString(backup);
        return text[..(text.TrimEnd('\n').LastIndexOf('\n') + 1)];
    }

    private static byte[] Sealed(string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        return [.. bytes, .. Encoding.ASCII.GetBytes($"{{\"sha256\":\"{Convert.ToHexStringLower(SHA256.HashData(bytes))}\"}}\n")];
    }

    private string At(string name) => Path.Combine(_folder.FullName, name);

    private void MakeMore()
    {
        GradeDocument grades = GradeFile.Read(At("grades.yaml")).Value!;
        using (StreamWriter json = File.CreateText(At("grades.json")))
        {
            GradeFile.WriteJson(json, "Invented grades.", grades.Grades.Select(grade => grade.Grade));
        }

        using (StreamWriter prices = File.CreateText(At("prices.csv")))
        {
            GradePriceFile.Write(prices, grades.Grades.Select(grade => grade.Grade));
        }

        File.WriteAllText(At("edit.yaml"), "friction: { low: 0.1, likely: 0.12, high: 0.15 }\nprice:\n  base: 30 USD\nminimum bend radius: 8 in\nrated pull:\n");
    }

    private static (object? Value, IReadOnlyList<FileProblem> Problems) Read(string kind, string file)
    {
        return kind switch
        {
            "installation" => Both(InstallationFile.Read(file)),
            "route" => Both(RouteFile.Read(file)),
            "weight test" => Both(WeightTestFile.Read(file)),
            "grades" => Both(GradeFile.Read(file)),
            "grade edit" => Both(GradeEdit.Read(file)),
            "grade prices" => Both(GradePriceFile.Read(file)),
            "dealer's prices" => Both(DealerPriceFile.Read(file)),
            _ => Both(BatchFile.Read(file)),
        };

        static (object?, IReadOnlyList<FileProblem>) Both<T>(FileResult<T> result)
            where T : class => (result.Value, result.Problems);
    }

    // Problems stand within the file, on a line that it has.
    private static (bool Read, string[] Broken) Judge((object? Value, IReadOnlyList<FileProblem> Problems) result, byte[] bytes)
    {
        (object? value, IReadOnlyList<FileProblem> problems) = result;
        int lines = bytes.Count(one => one is (byte)'\n' or (byte)'\r') + 1 + CountOf(bytes, 0xC2, 0x85) + CountOf(bytes, 0xE2, 0x80);
        string[] broken =
        [
            .. value is null == (problems.Count == 0) ? ["neither a value nor a problem, or both"] : Array.Empty<string>(),
            .. problems.Count > ProblemList.Most ? [$"{problems.Count} problems"] : Array.Empty<string>(),
            .. problems.Where(problem => problem.Message.Length is 0 or > 2000).Select(problem => $"a message of {problem.Message.Length} letters"),
            .. problems.Where(problem => Path.GetFileName(problem.File).StartsWith("spoilt", StringComparison.Ordinal) && !IsPlace(problem, lines))
                .Select(problem => $"no such place: {problem}"),
        ];
        return (value is not null, broken);
    }

    private static bool IsPlace(FileProblem problem, int lines) =>
        (problem.Line, problem.Column) == (0, 0) || (problem.Line >= 1 && problem.Line <= lines + 1 && problem.Column >= 1);

    private static int CountOf(byte[] bytes, byte first, byte second)
    {
        int count = 0;
        for (int at = 1; at < bytes.Length; at++)
        {
            count += bytes[at - 1] == first && bytes[at] == second ? 1 : 0;
        }

        return count;
    }

    private static (bool Read, string[] Broken) IsRead(string kind, string text)
    {
        switch (kind)
        {
            case "date":
                return (DateText.Parse(text) is not null, []);
            case "money":
                decimal? amount = MoneyText.FromDigits(text);
                return (amount is not null, amount is { } one && MoneyText.ToDecimal(MoneyText.FromDecimal(one, "USD")) != one ? ["another amount"] : []);
            case "assignment":
                FileResult<GradeEdit> edit = GradeEdit.FromAssignments("--set", [text]);
                return (edit.Value is not null, edit.Value is null == (edit.Problems.Count == 0) ? ["neither"] : []);
            default:
                QuantityKind of = kind switch
                {
                    "length" => QuantityKind.Length,
                    "force" => QuantityKind.Force,
                    "ratio" => QuantityKind.Ratio,
                    _ => QuantityKind.BendingStiffness,
                };
                ParsedQuantity quantity = QuantityText.Parse(text, of);
                return (quantity.Problem is null, double.IsFinite(quantity.Si) && quantity.Problem != "" ? [] : ["not finite, or no words"]);
        }
    }

    private void Run(string kind, int inputs, Func<Random, (byte[] Input, Func<(bool Read, string[] Broken)> Read)> make)
    {
        (int all, int read, TimeSpan slowest) = (0, 0, TimeSpan.Zero);
        var broken = new List<string>();
        long heldBefore = GC.GetTotalMemory(forceFullCollection: true);
        var watch = Stopwatch.StartNew();
        foreach (int seed in FuzzInputs.Seeds(kind, inputs))
        {
            (byte[] input, Func<(bool, string[])> reading) = make(new Random(seed));
            TimeSpan worked = Environment.CpuUsage.TotalTime;
            (bool isRead, string[] wrong) = (false, []);
            try
            {
                (isRead, wrong) = reading();
            }
            catch (Exception failure)
            {
                wrong = [failure.ToString()];
            }

            TimeSpan taken = Environment.CpuUsage.TotalTime - worked;
            all++;
            read += isRead ? 1 : 0;
            slowest = slowest < taken ? taken : slowest;
            wrong = taken > Slow ? [.. wrong, $"it took {taken.TotalSeconds:0.0} s"] : wrong;
            if (wrong.Length > 0)
            {
                broken.Add($"{kind} {seed}: {string.Join("; ", wrong)}\n{Encoding.UTF8.GetString(input)[..Math.Min(input.Length / 2, 1500)]}");
            }
        }

        long held = Math.Max(0, GC.GetTotalMemory(forceFullCollection: true) - heldBefore) >> 20;
        using var self = Process.GetCurrentProcess();
        long peak = self.PeakWorkingSet64 >> 20;
        object[] cells =
        [
            kind, all, read, all - read, FormattableString.Invariant($"{slowest.TotalSeconds:0.00}"),
            FormattableString.Invariant($"{watch.Elapsed.TotalSeconds:0.0}"), held, peak,
        ];
        _output.WriteLine(string.Join(" | ", cells));
        FuzzTable.Keep("People's files and texts, and backups", Head, cells);
        Assert.True(broken.Count == 0, $"{broken.Count} of {all}\n{string.Join("\n----\n", broken.Take(8))}");
        Assert.InRange(held, 0, MostHeldMiB);
        Assert.InRange(peak, 0, MostPeakMiB);
    }
}
