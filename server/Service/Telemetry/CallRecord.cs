using System.Globalization;
using CableCatalog.Service.Hosting;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.AspNetCore.Server;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CableCatalog.Service.Telemetry;

/// <summary>An rpc: "cablecatalog.v1.GradeCatalog", "GetGrade".</summary>
internal sealed record RpcName(string Service, string Method);

/// <summary>What is told of a call that has ended. Nothing of what was asked or answered, and no key, is in it.</summary>
/// <param name="Rpc">Which rpc; null where the request was for none, as health over HTTP.</param>
/// <param name="Name">The rpc's full name, else the route, else "nothing here".</param>
/// <param name="Failure">How it failed; null: it did not.</param>
/// <param name="Http">The HTTP status.</param>
internal sealed record CallRecord(RpcName? Rpc, string Name, CallOutcome? Failure, int Http)
{
    private static readonly EnumDescriptor Codes = CodeReflection.Descriptor.EnumTypes.Single();

    /// <summary>The status in words: "NOT_FOUND" of an rpc, "503" of anything else.</summary>
    public string Status => Rpc is null && Failure is null
        ? Http.ToString(CultureInfo.InvariantCulture)
        : Codes.FindValueByNumber((int)Code)?.Name ?? "UNKNOWN";

    /// <summary>Whether the service is to blame, and not the caller.</summary>
    public bool IsServersFault => Code
        is Code.Unknown or Code.DeadlineExceeded or Code.Unimplemented or Code.Internal or Code.Unavailable or Code.DataLoss;

    private Code Code => Failure?.Code ?? Code.Ok;

    /// <summary>Reads it from a call.</summary>
    public static CallRecord Of(HttpContext context)
    {
        Endpoint? endpoint = context.GetEndpoint();
        RpcName? rpc = endpoint?.Metadata.GetMetadata<GrpcMethodMetadata>()?.Method is { } method
            ? new RpcName(method.ServiceName, method.Name)
            : null;
        return new CallRecord(
            rpc,
            rpc is null ? (endpoint as RouteEndpoint)?.RoutePattern.RawText ?? "nothing here" : $"{rpc.Service}/{rpc.Method}",
            context.Noted<CallOutcome>() ?? CallOutcome.OfBare(context),
            context.Response.StatusCode);
    }

    /// <summary>Attributes after OpenTelemetry's semantic conventions.</summary>
    public IEnumerable<KeyValuePair<string, object?>> RpcTags(RpcName rpc) =>
    [
        new("rpc.system", "grpc"),
        new("rpc.service", rpc.Service),
        new("rpc.method", rpc.Method),
        new("rpc.grpc.status_code", (int)Code),
    ];
}
