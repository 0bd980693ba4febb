using System.Net;
using CableCatalog.Catalog.Access;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Requests;
using Grpc.Core;

namespace CableCatalog.Service.Doors;

/// <summary>Who makes a call.</summary>
/// <param name="Name">What the history calls the author: the name of a key, or plain words.</param>
/// <param name="Role">What the caller may do.</param>
/// <param name="KeyId">The key that the caller has shown; null where none was needed.</param>
/// <param name="CountedAs">With whom the calls are counted together.</param>
internal sealed record Caller(string Name, AccessRole Role, string? KeyId, string CountedAs)
{
    /// <summary>One who may read without a key; all of one address are counted together.</summary>
    public static Caller AnonymousAt(IPAddress? address) => new("anonymous", AccessRole.Reader, null, CountedFrom(address));

    /// <summary>How calls without a good key are counted: no key has such a name.</summary>
    public static string CountedFrom(IPAddress? address) => $"from {address}";

    /// <summary>The program of which the service is a part: who can run it on a catalogue can do anything with it.</summary>
    public static Caller ThisProgram { get; } = new($"command line ({Environment.UserName})", AccessRole.Administrator, null, "this program");

    /// <summary>The holder of a key.</summary>
    public static Caller With(AccessKey key) => new(ResourceNames.AccessKeys.Of(key.Id), key.Role, key.Id, key.Id);

    /// <summary>Who makes a call that was let in.</summary>
    public static Caller Of(ServerCallContext context) => context.Noted<Caller>()
        ?? throw new InvalidOperationException("the call has come in by no door");
}
