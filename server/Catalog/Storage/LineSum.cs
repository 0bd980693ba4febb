using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;

namespace CableCatalog.Catalog.Storage;

/// <summary>A checksum of a set of lines to which a line can be added, and from which one can be taken, without the others: the sum of
/// the SHA-256 of each, modulo 2^256.</summary>
/// <remarks>M. Bellare and D. Micciancio, A new paradigm for collision-free hashing: incrementality at reduced cost, EUROCRYPT 1997 (from
/// memory). Against accidents, as every checksum here: whoever can write a file can write its checksum too.</remarks>
internal readonly record struct LineSum(UInt128 High, UInt128 Low)
{
    /// <summary>The sum of lines in UTF-8, each with its line feed.</summary>
    internal static LineSum Of(ReadOnlySpan<byte> lines)
    {
        var sum = default(LineSum);
        while (lines.IndexOf((byte)'\n') is >= 0 and int end)
        {
            sum += OfOne(lines[..end]);
            lines = lines[(end + 1)..];
        }

        return sum;
    }

    /// <summary>The sum of one line; a line feed at its end does not count.</summary>
    internal static LineSum OfLine(string line) => Of(CatalogText.LineOf(line));

    /// <summary>Reads what <see cref="ToString"/> writes; null where it is none.</summary>
    internal static LineSum? Parse(string? digits) =>
        digits is { Length: 64 }
        && UInt128.TryParse(digits.AsSpan(0, 32), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out UInt128 high)
        && UInt128.TryParse(digits.AsSpan(32), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out UInt128 low)
            ? new LineSum(high, low)
            : null;

    /// <summary>64 lower-case hexadecimal digits.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{High:x32}{Low:x32}");

    /// <summary>With the lines of another.</summary>
    public static LineSum operator +(LineSum a, LineSum b)
    {
        UInt128 low = unchecked(a.Low + b.Low);
        return new LineSum(unchecked(a.High + b.High + (low < a.Low ? UInt128.One : UInt128.Zero)), low);
    }

    /// <summary>Without the lines of another.</summary>
    public static LineSum operator -(LineSum a, LineSum b) => new(
        unchecked(a.High - b.High - (a.Low < b.Low ? UInt128.One : UInt128.Zero)), unchecked(a.Low - b.Low));

    private static LineSum OfOne(ReadOnlySpan<byte> line)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(line, hash);
        return new LineSum(BinaryPrimitives.ReadUInt128BigEndian(hash), BinaryPrimitives.ReadUInt128BigEndian(hash[16..]));
    }
}
