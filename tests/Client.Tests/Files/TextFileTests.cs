using System.Text;
using CableCatalog.Client.Files;

namespace CableCatalog.Client.Tests.Files;

public sealed class TextFileTests : IDisposable
{
    private const int OneMiB = 1 << 20;

    private readonly string folder = Directory.CreateTempSubdirectory().FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Text_is_read_with_and_without_a_byte_order_mark()
    {
        Assert.Equal(("a: \u00E9", ""), Read(Written([0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes("a: \u00E9")])));
        Assert.Equal(("a: \u00E9", ""), Read(Written(Encoding.UTF8.GetBytes("a: \u00E9"))));
    }

    [Fact]
    public void A_missing_file_is_said_to_be_missing()
    {
        const string Message = "there is no such file; check the name and the folder";

        Assert.Equal((null, Message), Read(Path.Combine(folder, "none.yaml")));
        Assert.Equal((null, Message), Read(Path.Combine(folder, "none", "none.yaml")));
    }

    [Fact]
    public void A_folder_is_said_to_be_a_folder() => Assert.Equal((null, "this is a folder; name a file in it"), Read(folder));

    [Theory]
    [InlineData("")]
    [InlineData("a\0b")]
    public void A_name_that_cannot_be_one_is_said_to_be_none(string name) =>
        Assert.Equal((null, "this is not the name of a file"), Read(name));

    // Root may read everything, so that a forbidden file cannot always be made: the wording is checked by itself.
    [Fact]
    public void A_forbidden_file_is_said_to_be_forbidden()
    {
        const string Message = "you are not allowed to read this file; ask its owner, or copy it";
        Assert.Equal(Message, TextFile.WhyUnreadable(new UnauthorizedAccessException()));

        string file = Written([]);
        if (!OperatingSystem.IsWindows() && !Environment.IsPrivilegedProcess)
        {
            File.SetUnixFileMode(file, UnixFileMode.None);
            Assert.Equal((null, Message), Read(file));
        }
    }

    [Fact]
    public void A_file_of_the_greatest_size_is_read_and_a_byte_more_is_not()
    {
        Assert.Equal(OneMiB, Read(Written(Encoding.ASCII.GetBytes(new string('x', OneMiB)))).Text!.Length);
        Assert.Equal(
            (null, "the file is larger than 1 MiB, so it is not what is expected here; check the name"),
            Read(Written(Encoding.ASCII.GetBytes(new string('x', OneMiB + 1)))));
    }

    [Fact]
    public void A_huge_file_is_refused_by_its_length_without_being_read()
    {
        string file = Path.Combine(folder, "sparse");
        using (FileStream stream = File.Create(file))
        {
            stream.SetLength(1L << 40);
        }

        Assert.Contains("larger than 1 MiB", Read(file).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_without_end_is_read_no_further_than_the_greatest_size()
    {
        if (File.Exists("/dev/zero"))
        {
            Assert.Contains("larger than 1 MiB", Read("/dev/zero").Problem, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(new byte[] { (byte)'a', 0, (byte)'b' })]
    [InlineData(new byte[] { (byte)'a', 0xFF })]
    [InlineData(new byte[] { 0xC3 })]
    [InlineData(new byte[] { 0xFF, 0xFE, (byte)'a', 0 })]
    public void What_is_not_text_is_said_not_to_be(byte[] bytes) =>
        Assert.Equal((null, "this is not a file of plain text; save it as UTF-8 text"), Read(Written(bytes)));

    private static (string? Text, string Problem) Read(string file)
    {
        var problems = new ProblemList(file);
        string? text = TextFile.Read(file, OneMiB, problems);
        return (text, string.Concat(problems.Result<string>(null).Problems.Select(p => p.Message)));
    }

    private string Written(byte[] bytes)
    {
        string file = Path.Combine(folder, Path.GetRandomFileName());
        File.WriteAllBytes(file, bytes);
        return file;
    }
}
