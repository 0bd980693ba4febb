using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.History;
using CableCatalog.Service.Doors;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;

namespace CableCatalog.Service.Requests;

/// <summary>Where a write comes from, for the journal.</summary>
internal static class Origins
{
    /// <summary>The field of a request that is only to be checked.</summary>
    public const string ValidateOnly = "validate_only";

    private const string RequestId = "request_id";
    private const int UuidLength = 36;

    /// <summary>The origin of a call: who makes it, and where the request has a request_id, its mark.</summary>
    /// <exception cref="InvalidRequestException">The request_id is not formed as one.</exception>
    public static WriteOrigin Of(ServerCallContext context, IMessage request)
    {
        FieldDescriptor? field = request.Descriptor.FindFieldByName(RequestId);
        string id = field?.Accessor.GetValue(request) as string ?? "";
        return new WriteOrigin(Caller.Of(context).Name, id.Length == 0 ? null : new RequestMark(ReadId(id), HashOf(context.Method, request)));
    }

    // The parser overlooks blanks around it.
    private static string ReadId(string id) =>
        id.Length == UuidLength && Guid.TryParseExact(id, "D", out Guid guid) && guid != Guid.Empty
        ? guid.ToString("D")
        : throw InvalidRequestException.For(
            RequestId, "BAD_REQUEST_ID", "must be a UUID such as 123e4567-e89b-42d3-a456-426614174000, a new one for every request");

    private static string HashOf(string method, IMessage request)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes(method + "\n"));
        hash.AppendData(ToBeMade(request).ToByteArray());
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // Whether a request may be made is asked of the request as it will be made, and an id may be written in capitals.
    private static IMessage ToBeMade(IMessage request)
    {
        IMessage made = request.Descriptor.Parser.ParseFrom(request.ToByteArray());
        foreach (string name in new[] { RequestId, ValidateOnly })
        {
            made.Descriptor.FindFieldByName(name)?.Accessor.Clear(made);
        }

        return made;
    }
}
