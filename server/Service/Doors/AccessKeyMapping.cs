using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Doors;

/// <summary>Between keys of the contract and of the catalogue.</summary>
internal static class AccessKeyMapping
{
    /// <summary>Reads what a new key shall be.</summary>
    /// <param name="request">The request.</param>
    /// <param name="sha256">What is kept of the key itself.</param>
    /// <param name="now">The time.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported.</exception>
    public static AccessKey Read(V1.CreateAccessKeyRequest request, string sha256, DateTimeOffset now)
    {
        var violations = new Violations();
        if (!GradeId.IsValid(request.AccessKeyId))
        {
            violations.Add("access_key_id", "BAD_NAME", $"must be an id: {GradeId.InWords}");
        }

        if (request.AccessKey is not { } sent)
        {
            throw InvalidRequestException.For("access_key", "REQUIRED", "must be given");
        }

        string displayName = violations.Text("access_key.display_name", sent.DisplayName, 1, 100);
        AccessRole role = sent.Role switch
        {
            V1.AccessRole.Reader => AccessRole.Reader,
            V1.AccessRole.PriceEditor => AccessRole.PriceEditor,
            V1.AccessRole.Administrator => AccessRole.Administrator,
            _ => default,
        };
        if (role == default)
        {
            violations.Missing("access_key.role", "reader, price editor or administrator");
        }

        DateTimeOffset? expires = ReadExpiry(violations, sent.ExpireTime, now);
        violations.ThrowIfAny();
        return new AccessKey(request.AccessKeyId, displayName, role, sha256, expires, null);
    }

    /// <summary>Writes a key.</summary>
    /// <param name="held">The key.</param>
    /// <param name="now">The time, to say whether it is good; null where that is of no matter.</param>
    public static V1.AccessKey Write(CatalogAccessKey held, DateTimeOffset? now = null) => new()
    {
        Name = ResourceNames.AccessKeys.Of(held.Id),
        DisplayName = held.Key.DisplayName,
        Role = held.Key.Role switch
        {
            AccessRole.Administrator => V1.AccessRole.Administrator,
            AccessRole.PriceEditor => V1.AccessRole.PriceEditor,
            _ => V1.AccessRole.Reader,
        },
        ExpireTime = held.Key.Expires is { } expires ? Timestamp.FromDateTimeOffset(expires) : null,
        RevokeTime = held.Key.Revoked is { } revoked ? Timestamp.FromDateTimeOffset(revoked) : null,
        CreateTime = Timestamp.FromDateTimeOffset(held.Created),
        Good = now is { } time && held.Key.IsGoodAt(time),
    };

    private static DateTimeOffset? ReadExpiry(Violations violations, Timestamp? sent, DateTimeOffset now)
    {
        const string Field = "access_key.expire_time";
        if (sent is null)
        {
            return null;
        }

        // Years 1 to 9999, as the contract's timestamps have.
        if (sent.Nanos is < 0 or > 999_999_999 || sent.Seconds is < -62_135_596_800 or > 253_402_300_799)
        {
            violations.Add(Field, "OUT_OF_RANGE", "must be a time of the years 1 to 9999");
            return null;
        }

        var expires = sent.ToDateTimeOffset();
        if (expires <= now)
        {
            violations.Add(Field, "OUT_OF_RANGE", "must be in the future");
        }

        return expires;
    }
}
