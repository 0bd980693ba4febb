using System.Security.Cryptography;
using System.Text;

namespace CableCatalog.Catalog.History;

/// <summary>How far the journal reaches, and a checksum of all of it: each entry's line is hashed together with the checksum
/// before it, so that none can be altered, left out or put elsewhere.</summary>
/// <param name="After">The revision after which it begins.</param>
/// <param name="AfterWritten">When that revision was written; <see cref="DateTimeOffset.MinValue"/> where that is not known.</param>
/// <param name="Sha256">Of all entries up to the catalogue's revision: hexadecimal digits; empty where there are none.</param>
internal sealed record JournalHead(long After, DateTimeOffset AfterWritten, string Sha256)
{
    /// <summary>A journal that begins after a revision.</summary>
    internal static JournalHead From(long revision, DateTimeOffset written) => new(revision, written, string.Empty);

    /// <summary>With one entry more.</summary>
    internal JournalHead With(string line) => this with
    {
        Sha256 = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{Sha256}\n{line}\n"))),
    };
}
