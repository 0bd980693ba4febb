using CableCatalog.Client.Commands;
using CableCatalog.Client.Files;
using Google.Rpc;
using Grpc.Core;

namespace CableCatalog.Client.Failures;

/// <summary>From a status of the service to words for a person, with the place in their file where there is one.</summary>
internal static class RpcFailures
{
    /// <summary>The failure that a person sees.</summary>
    /// <param name="rpc">What the service answered.</param>
    /// <param name="server">Where it was asked.</param>
    /// <param name="sources">From a field path of the request to its place in the file it was read from.</param>
    public static ClientFailure Of(RpcException rpc, string server, Func<string, SourceMark?>? sources = null)
    {
        Google.Rpc.Status? details = rpc.GetRpcStatus();
        if (details?.GetDetail<BadRequest>() is { } bad)
        {
            // One value that stands for a whole band is wrong at all three of its ends.
            return new ClientFailure(
                ExitCode.BadInput, bad.FieldViolations.Select(violation => InWords(violation, sources)).Distinct());
        }

        if (details is not null && rpc.StatusCode == StatusCode.Unauthenticated)
        {
            return new ClientFailure(
                ExitCode.Refused,
                $"{server} does not let this in: {rpc.Status.Detail} Here a key goes into a file for --key-file, or into the variable {CommonOptions.KeyVariable}.");
        }

        if (details is not null && rpc.StatusCode is not (StatusCode.Internal or StatusCode.Unimplemented or StatusCode.DeadlineExceeded))
        {
            return new ClientFailure(ExitCode.Refused, rpc.Status.Detail);
        }

        return rpc.StatusCode switch
        {
            StatusCode.Unimplemented => new ClientFailure(
                ExitCode.Unreachable,
                $"{server} does not know what this command asks for: it is another service, or another version of this one; "
                    + "check --server, or bring client and server to the same version."),
            StatusCode.DeadlineExceeded => new ClientFailure(
                ExitCode.Unreachable,
                $"{server} did not answer in time; a change may have been made all the same, so look before repeating it."),

            _ when rpc.Status.DebugException is HttpRequestException { HttpRequestError: HttpRequestError.SecureConnectionError } => new ClientFailure(
                ExitCode.Unreachable,
                $"{server} has no certificate that this computer trusts, or speaks no TLS; give its certificate with --trust, "
                    + "or its address with http:// where it runs without one."),

            // Cancelled is the library's word for an answer that is not gRPC, such as a web page.
            StatusCode.Unavailable or StatusCode.Internal or StatusCode.Unknown or StatusCode.Cancelled
                when details is null => new ClientFailure(
                ExitCode.Unreachable,
                $"{server} cannot be reached, or is not a CableCatalog service; "
                    + "check that it runs (cablecatalog serve) and that --server names its address and port."),
            _ => new ClientFailure(ExitCode.Refused, $"{server} refused: {rpc.Status.Detail}"),
        };
    }

    private static string InWords(BadRequest.Types.FieldViolation violation, Func<string, SourceMark?>? sources) =>
        sources?.Invoke(violation.Field) is { } mark
            ? mark.Problem(violation.Description).ToString()
            : $"{Option(violation.Field)} {violation.Description}";

    // Fields that people give in no file.
    private static string Option(string field)
    {
        const string Weighing = "weighing.";
        string name = field.StartsWith(Weighing, StringComparison.Ordinal) ? field[Weighing.Length..] : field;
        return name switch
        {
            "grade" or "grades" => "--grade",
            "price_list" => "--prices",
            "on_date" or "date" => "--date",
            "quantity" or "confidence" or "customer" or "boat" or "dealer" or "remark" => $"--{name}".Replace("--confidence", "--sure"),
            "valid_days" => "--valid-days",
            "access_key.expire_time" => "--expires",
            "access_key.display_name" => "--for",
            "resume_token" => "--from",
            "filter" => "--filter",
            "order_by" => "--order-by",
            _ when name.StartsWith("value_per_newton", StringComparison.Ordinal) => "--worth",
            _ when name.StartsWith("grades[", StringComparison.Ordinal) => "--grade",
            _ => field,
        };
    }
}
