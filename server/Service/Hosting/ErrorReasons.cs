using CableCatalog.V1;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Status = Google.Rpc.Status;

namespace CableCatalog.Service.Hosting;

/// <summary>Why a call failed, for programs: the google.rpc.ErrorInfo that every error has (AIP-193).</summary>
internal static class ErrorReasons
{
    private const string Domain = "cablecatalog.example";
    private const string Prefix = "ERROR_REASON_";

    private static readonly EnumDescriptor Type = ErrorReasonReflection.Descriptor.EnumTypes.Single();

    /// <summary>The reason as an ErrorInfo.</summary>
    /// <param name="reason">The reason.</param>
    /// <param name="metadata">What the contract says goes with it.</param>
    public static ErrorInfo Of(ErrorReason reason, params IEnumerable<(string Key, string Value)> metadata) => new()
    {
        Reason = Type.FindValueByNumber((int)reason)!.Name[Prefix.Length..],
        Domain = Domain,
        Metadata = { metadata.ToDictionary(one => one.Key, one => one.Value) },
    };

    /// <summary>The status of a failure that says nothing but its code: one that the framework makes, before or beside the services.</summary>
    public static Status OfBare(Code code, string message) => new()
    {
        Code = (int)code,
        Message = message,
        Details = { Any.Pack(Of(ReasonOf(code))) },
    };

    private static ErrorReason ReasonOf(Code code) => code switch
    {
        Code.ResourceExhausted => ErrorReason.MessageTooLarge,
        Code.DeadlineExceeded => ErrorReason.DeadlinePassed,
        Code.Cancelled => ErrorReason.CallCancelled,
        Code.Unimplemented or Code.NotFound => ErrorReason.NoSuchMethod,
        Code.InvalidArgument => ErrorReason.MalformedCall,
        Code.Internal or Code.Unknown => ErrorReason.ServiceFailed,
        _ => ErrorReason.MalformedCall,
    };
}
