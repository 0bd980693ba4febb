using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Quotes;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Microsoft.Extensions.Logging;
using Status = Google.Rpc.Status;

namespace CableCatalog.Service.Hosting;

/// <summary>From a failure to a status of the contract with google.rpc details; nothing internal is in it.</summary>
internal sealed partial class FailureStatus(ILogger<FailureStatus> log)
{
    /// <summary>The status of a failure; one that is not the caller's is logged.</summary>
    public Status Of(Exception failure, ServerCallContext context)
    {
        switch (failure)
        {
            case InvalidRequestException invalid:
                return Of(invalid);
            case CatalogRefusedException { Reason: RefusalReason.OtherCurrency } refused:
                return Precondition("CURRENCY", ResourceNames.Grades.Of(refused.Id), refused.Message);
            case CatalogRefusedException { Reason: RefusalReason.NoGrades } refused:
                return Precondition("CATALOGUE", "grades", refused.Message);
            case NothingToQuoteException nothing:
                return Precondition("OPTIONS", "options", nothing.Message);
            case NotAllowedException notAllowed:
                return Entrance.Denied(notAllowed.Needed);
            case KeyEndedException ended:
                return Refusal(Code.Unauthenticated, "KEY_ENDED", ended.Message);
            case StoppingException stopping:
                return Refusal(Code.Unavailable, "STOPPING", stopping.Message);
            case NotThisCourseException other:
                return Precondition("RESUME_TOKEN", "revisions", other.Message);
            case CatalogRefusedException { Reason: RefusalReason.RequestReused } reused:
                return Of(InvalidRequestException.For("request_id", "REQUEST_ID_REUSED", reused.Message), context);
            case CatalogRefusedException refused:
                return With(CodeOf(refused.Reason), refused.Message, new ResourceInfo
                {
                    ResourceType = $"cablecatalog.example/{refused.Kind}",
                    ResourceName = ResourceNames.Of(refused.Kind).Of(refused.Id),
                    Description = refused.Message,
                });
            case CatalogStoreException { Fault: StoreFault.Busy or StoreFault.Unreachable } busy:
                return With(
                    Code.Unavailable,
                    busy.Message,
                    new RetryInfo { RetryDelay = Duration.FromTimeSpan(TimeSpan.FromSeconds(1)) });
            case CatalogStoreException { Fault: StoreFault.DiskRefused } refused:
                return Precondition("DISK", "grades", refused.Message);
            case CatalogStoreException { Fault: StoreFault.OutcomeUnknown } unknown:
                return With(
                    Code.Unknown,
                    unknown.Message,
                    new ResourceInfo { ResourceName = "grades", Description = unknown.Message });
            case CatalogStoreException damaged:
                return With(Code.DataLoss, damaged.Message, null);
            case OperationCanceledException when context.CancellationToken.IsCancellationRequested:
                return With(Code.Cancelled, "The caller gave up waiting.", null);
            default:
                LogFailure(log, failure, context.Method);
                return With(Code.Internal, "The service failed; its log says why.", null);
        }
    }

    /// <summary>The status of a wrong request.</summary>
    public static Status Of(InvalidRequestException invalid) =>
        With(Code.InvalidArgument, FirstOf(invalid), invalid.Details);

    /// <summary>The status of a call that is turned away.</summary>
    public static Status Refusal(Code code, string reason, string message) =>
        With(code, message, new ErrorInfo { Reason = reason, Domain = "cablecatalog.example" });

    /// <summary>The status of a call that comes too soon after the others.</summary>
    public static Status TooFast(TimeSpan wait)
    {
        Status status = Refusal(
            Code.ResourceExhausted, "TOO_MANY_CALLS", "Too many calls at once: wait as long as the RetryInfo says, then go on more slowly.");
        status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(wait) }));
        return status;
    }

    private static Code CodeOf(RefusalReason reason) => reason switch
    {
        RefusalReason.NotFound => Code.NotFound,
        RefusalReason.AlreadyExists => Code.AlreadyExists,
        _ => Code.Aborted,
    };

    private static string FirstOf(InvalidRequestException invalid)
    {
        BadRequest.Types.FieldViolation first = invalid.Details.FieldViolations[0];
        return $"{invalid.Message}; the first: {first.Field} {first.Description}.";
    }

    private static Status Precondition(string type, string subject, string message) =>
        With(Code.FailedPrecondition, message, new PreconditionFailure
        {
            Violations = { new PreconditionFailure.Types.Violation { Type = type, Subject = subject, Description = message } },
        });

    private static Status With(Code code, string message, Google.Protobuf.IMessage? detail)
    {
        var status = new Status { Code = (int)code, Message = message };
        if (detail is not null)
        {
            status.Details.Add(Any.Pack(detail));
        }

        return status;
    }

    [LoggerMessage(LogLevel.Error, "{Method} failed")]
    private static partial void LogFailure(ILogger log, Exception failure, string method);
}
