using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Scoring;
using Google.Protobuf;

namespace CableCatalog.Service.Requests;

/// <summary>Pages: their size, and tokens that outlive a restart and a change of the catalogue.</summary>
/// <remarks>A token holds the key of the last row that was returned and a hash of the request it belongs to, nothing
/// that the server must remember.</remarks>
internal static class Paging
{
    /// <summary>The most rows of a page.</summary>
    public const int MostSize = 1000;

    private const int DefaultSize = 50;

    /// <summary>How many rows to return.</summary>
    /// <exception cref="InvalidRequestException">Negative.</exception>
    public static int Size(int asked) => asked switch
    {
        < 0 => throw InvalidRequestException.For("page_size", "OUT_OF_RANGE", "must be 0 (for 50) to 1000"),
        0 => DefaultSize,
        _ => Math.Min(asked, MostSize),
    };

    /// <summary>The token for the page after a row.</summary>
    /// <param name="request">The request with its page size and token cleared.</param>
    /// <param name="lastKey">The parts of the last row's key.</param>
    public static string Token(IMessage request, params IEnumerable<string> lastKey) =>
        Base64Url.EncodeToString(Encoding.UTF8.GetBytes(string.Join('\n', [Hash(request), .. lastKey])));

    /// <summary>The parts of the key in a token; null where there is none.</summary>
    /// <exception cref="InvalidRequestException">Not a token, or of another request.</exception>
    public static string[]? LastKey(IMessage request, string token, int parts)
    {
        if (token.Length == 0)
        {
            return null;
        }

        try
        {
            string[] all = Encoding.UTF8.GetString(Base64Url.DecodeFromChars(token)).Split('\n');
            if (all.Length == parts + 1 && all[0] == Hash(request))
            {
                return all[1..];
            }
        }
        catch (FormatException)
        {
            // Falls to the refusal below.
        }

        throw BadToken();
    }

    /// <summary>The token for the page after a row of a ranking.</summary>
    public static string Token(IMessage request, RankKey last) =>
        Token(request, Part((double)last.Group), Part(last.Value), last.Id);

    /// <summary>The key of a ranking in a token; null where there is none.</summary>
    /// <exception cref="InvalidRequestException">Not a token, or of another request.</exception>
    public static RankKey? LastRank(IMessage request, string token) => LastKey(request, token, 3) is not { } key
        ? null
        : int.TryParse(key[0], out int group) && TryNumber(key[1], out double value)
            ? new RankKey(group, value, key[2])
            : throw BadToken();

    /// <summary>A part of a key that is a whole number.</summary>
    /// <exception cref="InvalidRequestException">It is none: the token was made by hand.</exception>
    public static long WholeNumber(string part) =>
        long.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out long number) ? number : throw BadToken();

    /// <summary>The refusal of a token.</summary>
    public static InvalidRequestException BadToken() => InvalidRequestException.For(
        "page_token", "BAD_PAGE_TOKEN", "must be the next_page_token of the same request; leave it empty for the first page");

    /// <summary>A number as part of a key, to the last bit.</summary>
    private static string Part(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Reads back a <see cref="Part(double)"/>.</summary>
    private static bool TryNumber(string part, out double value) =>
        double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out value);

    private static string Hash(IMessage request) => Convert.ToHexString(SHA256.HashData(request.ToByteArray()).AsSpan(0, 8));
}
