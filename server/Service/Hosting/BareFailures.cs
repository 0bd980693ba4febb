using System.Globalization;
using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>Gives the failures that the framework makes by itself (a message too large or unreadable, no such rpc, a
/// deadline) their google.rpc details.</summary>
internal static partial class BareFailures
{
    /// <summary>What to say of a message whose bytes are none of the rpc's.</summary>
    public const string Unreadable = "The message cannot be read as the one that this rpc takes; make it from the contract's .proto files.";

    private const string Unwritten = "The service failed; its log says why.";

    private const string Details = "grpc-status-details-bin";

    /// <summary>The failure of a message that cannot be read.</summary>
    public static RpcException OfUnreadable() => ErrorReasons.OfBare(Code.InvalidArgument, Unreadable).ToRpcException();

    /// <summary>The failure of an answer that cannot be written.</summary>
    public static RpcException OfUnwritten() => ErrorReasons.OfBare(Code.Internal, Unwritten).ToRpcException();

    /// <summary>A failure with its details, where it had none.</summary>
    public static RpcException WithDetails(RpcException failure) => failure.GetRpcStatus() is null
        ? ErrorReasons.OfBare((Code)failure.StatusCode, failure.Status.Detail).ToRpcException()
        : failure;

    /// <summary>Lets the call be answered; what an answer of trailers only lacks is added just before it is sent.</summary>
    public static Task AddDetailsAsync(HttpContext context, RequestDelegate next)
    {
        context.Response.OnStarting(() =>
        {
            IHeaderDictionary headers = context.Response.Headers;
            if (!headers.ContainsKey(Details)
                && int.TryParse(headers["grpc-status"].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out int code)
                && code != (int)Code.Ok)
            {
                string message = Uri.UnescapeDataString(headers["grpc-message"].ToString());
                if (code == (int)Code.Unknown)
                {
                    // What the framework calls so before the call has begun is a message that it could not read; after that, an answer that
                    // it could not write.
                    bool hasBegun = context.Noted<BegunCall>() is not null;
                    (code, message) = hasBegun ? ((int)Code.Internal, Unwritten) : ((int)Code.InvalidArgument, Unreadable);
                    if (hasBegun)
                    {
                        LogUnwritten(context.RequestServices.GetRequiredService<ILogger<FailureStatus>>(), context.Request.Path);
                    }

                    headers["grpc-status"] = code.ToString(CultureInfo.InvariantCulture);
                    headers["grpc-message"] = message;
                }

                headers[Details] = Convert.ToBase64String(ErrorReasons.OfBare((Code)code, message).ToByteArray()).TrimEnd('=');
            }

            return Task.CompletedTask;
        });
        return next(context);
    }

    [LoggerMessage(LogLevel.Error, "{Method} failed after its work was done: its answer could not be written")]
    private static partial void LogUnwritten(ILogger log, string method);
}

/// <summary>Marks a call whose message has been read.</summary>
internal sealed class BegunCall;
