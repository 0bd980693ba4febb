using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Storage;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>The checksum that changes with a line.</summary>
public class LineSumTests
{
    private static readonly Gen<string[]> Lines = Gen.String[Gen.Char["abc{}\":1é水"], 0, 40].Array[0, 30];

    // System.Numerics.BigInteger is the reference.
    [Fact]
    public void It_is_the_sum_of_the_hashes_modulo_2_to_the_256() => Law.Holds(Lines, seed: 4101, count: 300, lines =>
    {
        BigInteger sum = lines.Aggregate(
            BigInteger.Zero,
            (sum, line) => sum + new BigInteger(SHA256.HashData(Encoding.UTF8.GetBytes(line)), isUnsigned: true, isBigEndian: true));
        string expected = (sum % BigInteger.Pow(2, 256)).ToString("x64", CultureInfo.InvariantCulture)[^64..];
        Assert.Equal(expected, Of(lines).ToString());
    });

    [Fact]
    public void Order_does_not_count_and_a_line_taken_out_leaves_the_others() => Law.Holds(Lines, seed: 4102, count: 300, lines =>
    {
        LineSum sum = Of(lines);
        Assert.Equal(sum, Of([.. lines.Reverse()]));
        for (int i = 0; i < lines.Length; i++)
        {
            Assert.Equal(Of([.. lines[..i], .. lines[(i + 1)..]]), sum - LineSum.OfLine(lines[i]));
        }
    });

    [Fact]
    public void It_reads_what_it_writes() => Law.Holds(Lines, seed: 4103, count: 100, lines =>
        Assert.Equal(Of(lines), LineSum.Parse(Of(lines).ToString())));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("00")]
    [InlineData("g000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("0000000000000000000000000000000 00000000000000000000000000000000")]
    [InlineData("00000000000000000000000000000000000000000000000000000000000000000")]
    public void It_reads_nothing_else(string? digits) => Assert.Null(LineSum.Parse(digits));

    private static LineSum Of(string[] lines) => LineSum.Of(Encoding.UTF8.GetBytes(string.Concat(lines.Select(line => line + "\n"))));
}
