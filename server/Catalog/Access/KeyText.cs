using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Access;

/// <summary>A key as its holder writes it: the id, a point, and 32 random bytes in base64url.</summary>
/// <remarks>With 256 random bits behind it a plain SHA-256 cannot be guessed back: nothing slower is needed.</remarks>
public static class KeyText
{
    private const int SecretBytes = 32;

    /// <summary>Makes the text of a new key.</summary>
    /// <param name="id">Its id.</param>
    /// <returns>The text, to be shown once, and what is kept of it.</returns>
    public static (string Text, string Sha256) Make(string id)
    {
        string secret = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes));
        return ($"{id}.{secret}", HashOf(secret));
    }

    /// <summary>The key that a text is of; null where it is of none. How long it takes does not tell how much of it was right.
    /// </summary>
    public static AccessKey? Find(CatalogSnapshot catalog, string text)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(text);
        int point = text.IndexOf('.', StringComparison.Ordinal);
        AccessKey? key = point < 0 ? null : catalog.FindAccessKey(text[..point])?.Key;
        string hash = HashOf(text[(point + 1)..]);
        bool same = CryptographicOperations.FixedTimeEquals(
            Encoding.ASCII.GetBytes(hash), Encoding.ASCII.GetBytes(key?.Sha256 ?? new string('-', hash.Length)));
        return same ? key : null;
    }

    private static string HashOf(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
