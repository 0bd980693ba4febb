using System.Net;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Service.Hosting;
using Google.Rpc;
using ErrorReason = CableCatalog.V1.ErrorReason;

namespace CableCatalog.Service.Doors;

/// <summary>Whether a call comes in. Pure.</summary>
internal abstract record Entrance
{
    private const string Scheme = "Bearer ";

    private Entrance()
    {
    }

    /// <summary>It does.</summary>
    public sealed record Admitted(Caller Caller) : Entrance;

    /// <summary>It does not.</summary>
    public sealed record Refused(Status Status) : Entrance;

    /// <summary>Decides.</summary>
    /// <param name="catalog">The catalogue, with its keys.</param>
    /// <param name="authorization">The header of that name; empty where there is none.</param>
    /// <param name="from">Where the call comes from; null where that is not known.</param>
    /// <param name="needed">What the caller must be.</param>
    /// <param name="reads">Who may read without a key.</param>
    /// <param name="now">The time.</param>
    public static Entrance Of(
        CatalogSnapshot catalog, string authorization, IPAddress? from, AccessRole needed, OpenReads reads, DateTimeOffset now)
    {
        if (authorization.Length == 0)
        {
            bool open = reads == OpenReads.ToAnybody || (reads == OpenReads.OnThisMachine && from is not null && IPAddress.IsLoopback(from));
            return open && needed == AccessRole.Reader
                ? new Admitted(Caller.AnonymousAt(from))
                : Unauthenticated(ErrorReason.KeyMissing, "This call needs a key: send the metadata \"authorization: Bearer KEY\".");
        }

        AccessKey? key = authorization.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase)
            ? KeyText.Find(catalog, authorization[Scheme.Length..].Trim())
            : null;

        // Only who has the whole key is told what is wrong with it.
        return key switch
        {
            null => Unauthenticated(ErrorReason.KeyUnknown, "The key is none of this catalogue's: check it, or ask an administrator for one."),
            { Revoked: not null } => Unauthenticated(ErrorReason.KeyRevoked, "The key has been revoked: ask an administrator for another."),
            _ when !key.IsGoodAt(now) => Unauthenticated(ErrorReason.KeyExpired, "The key has expired: ask an administrator for another."),
            _ when key.Role < needed => new Refused(Denied(needed)),
            _ => new Admitted(Caller.With(key)),
        };
    }

    /// <summary>The status of a call that the caller's role does not reach to.</summary>
    public static Status Denied(AccessRole needed) => FailureStatus.Refusal(
        Code.PermissionDenied,
        ErrorReason.RoleTooLow,
        $"This call needs the key of {InWords(needed)}: ask an administrator for one.");

    private static string InWords(AccessRole role) => role switch
    {
        AccessRole.Administrator => "an administrator",
        AccessRole.PriceEditor => "a price editor",
        _ => "a reader",
    };

    private static Refused Unauthenticated(ErrorReason reason, string message) =>
        new(FailureStatus.Refusal(Code.Unauthenticated, reason, message));
}
