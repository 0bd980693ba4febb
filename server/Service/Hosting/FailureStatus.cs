using System.Globalization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Quotes;
using CableCatalog.Service.Requests;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Microsoft.Extensions.Logging;
using Status = Google.Rpc.Status;

namespace CableCatalog.Service.Hosting;

/// <summary>From a failure to a status of the contract with google.rpc details. No stack trace and no secret is in it; where the catalogue
/// is may be, for whoever is to see to it.</summary>
internal sealed partial class FailureStatus(ILogger<FailureStatus> log)
{
    /// <summary>The status of a failure; one that is not the caller's is logged.</summary>
    public Status Of(Exception failure, ServerCallContext context)
    {
        if (failure is CatalogStoreException { Fault: not StoreFault.Busy })
        {
            LogStore(log, context.Method, failure.Message);
        }

        switch (failure)
        {
            case InvalidRequestException invalid:
                return Of(invalid);
            case CatalogRefusedException { Reason: RefusalReason.OtherCurrency } refused:
                string grade = ResourceNames.Grades.Of(refused.Id);
                return Precondition(ErrorReasons.Of(ErrorReason.OtherCurrency, ("resource", grade)), "CURRENCY", grade, refused.Message);
            case CatalogRefusedException { Reason: RefusalReason.NoGrades } refused:
                return Precondition(ErrorReasons.Of(ErrorReason.NoGrades), "CATALOGUE", "grades", refused.Message);
            case NothingToQuoteException nothing:
                return Precondition(ErrorReasons.Of(ErrorReason.NothingToQuote), "OPTIONS", "options", nothing.Message);
            case NotAllowedException notAllowed:
                return Entrance.Denied(notAllowed.Needed);
            case KeyEndedException ended:
                return Refusal(Code.Unauthenticated, ErrorReason.KeyEnded, ended.Message);
            case StoppingException stopping:
                return Refusal(Code.Unavailable, ErrorReason.Stopping, stopping.Message);
            case NotThisCourseException other:
                return Precondition(ErrorReasons.Of(ErrorReason.HistoryNotThere), "RESUME_TOKEN", "revisions", other.Message);
            case CatalogRefusedException { Reason: RefusalReason.RequestReused } reused:
                return Of(InvalidRequestException.For("request_id", "REQUEST_ID_REUSED", reused.Message), context);
            case CatalogRefusedException refused:
                (Code code, ErrorReason reason) = WhyRefused(refused.Reason);
                string resource = ResourceNames.Of(refused.Kind).Of(refused.Id);
                return With(code, ErrorReasons.Of(reason, ("resource", resource)), refused.Message, new ResourceInfo
                {
                    ResourceType = $"cablecatalog.example/{refused.Kind}",
                    ResourceName = resource,
                    Description = refused.Message,
                });
            case CatalogStoreException { Fault: StoreFault.Busy or StoreFault.Unreachable } busy:
                return With(
                    Code.Unavailable,
                    ErrorReasons.Of(busy.Fault == StoreFault.Busy ? ErrorReason.CatalogBusy : ErrorReason.CatalogUnreachable),
                    busy.Message,
                    new RetryInfo { RetryDelay = Duration.FromTimeSpan(TimeSpan.FromSeconds(1)) });
            case CatalogStoreException { Fault: StoreFault.DiskRefused } refused:
                return Precondition(ErrorReasons.Of(ErrorReason.DiskRefused), "DISK", "grades", refused.Message);
            case CatalogStoreException { Fault: StoreFault.OutcomeUnknown } unknown:
                return With(
                    Code.Unknown,
                    ErrorReasons.Of(ErrorReason.OutcomeUnknown),
                    unknown.Message,
                    new ResourceInfo { ResourceName = "grades", Description = unknown.Message });
            case CatalogStoreException damaged:
                return Refusal(Code.DataLoss, ErrorReason.CatalogDamaged, damaged.Message);
            case InvalidProtocolBufferException:
                return ErrorReasons.OfBare(Code.InvalidArgument, BareFailures.Unreadable);
            case OperationCanceledException when context.Deadline <= DateTime.UtcNow:
                return Refusal(Code.DeadlineExceeded, ErrorReason.DeadlinePassed, "The call's deadline passed before it was done.");
            case OperationCanceledException when context.CancellationToken.IsCancellationRequested:
            case Exception when CutCall.Is(failure):
                return Refusal(Code.Cancelled, ErrorReason.CallCancelled, "The caller gave up waiting.");
            case RpcException rpc:
                return rpc.GetRpcStatus() ?? ErrorReasons.OfBare((Code)rpc.StatusCode, rpc.Status.Detail);
            default:
                LogFailure(log, failure, context.Method);
                return Refusal(Code.Internal, ErrorReason.ServiceFailed, "The service failed; its log says why.");
        }
    }

    /// <summary>The status of a wrong request.</summary>
    public static Status Of(InvalidRequestException invalid)
    {
        BadRequest.Types.FieldViolation first = invalid.Details.FieldViolations[0];
        ErrorInfo why = ErrorReasons.Of(
            ErrorReason.InvalidFields,
            ("field", first.Field),
            ("field_reason", first.Reason),
            ("violations", invalid.Count.ToString(CultureInfo.InvariantCulture)));
        return With(
            Code.InvalidArgument, why, $"{invalid.Message}; the first: {first.Field} {first.Description}.", invalid.Details);
    }

    /// <summary>The status of a call that is turned away.</summary>
    public static Status Refusal(Code code, ErrorReason reason, string message) => With(code, ErrorReasons.Of(reason), message);

    /// <summary>The status of a call that comes too soon after the others.</summary>
    public static Status TooFast(TimeSpan wait) => With(
        Code.ResourceExhausted,
        ErrorReasons.Of(ErrorReason.TooManyCalls),
        "Too many calls at once: wait as long as the RetryInfo says, then go on more slowly.",
        new RetryInfo { RetryDelay = Duration.FromTimeSpan(wait) });

    private static (Code Code, ErrorReason Reason) WhyRefused(RefusalReason reason) => reason switch
    {
        RefusalReason.NotFound => (Code.NotFound, ErrorReason.ResourceNotFound),
        RefusalReason.AlreadyExists => (Code.AlreadyExists, ErrorReason.ResourceAlreadyExists),
        _ => (Code.Aborted, ErrorReason.EtagStale),
    };

    private static Status Precondition(ErrorInfo why, string type, string subject, string message) =>
        With(Code.FailedPrecondition, why, message, new PreconditionFailure
        {
            Violations = { new PreconditionFailure.Types.Violation { Type = type, Subject = subject, Description = message } },
        });

    private static Status With(Code code, ErrorInfo why, string message, params IEnumerable<IMessage> details) => new()
    {
        Code = (int)code,
        Message = message,
        Details = { details.Prepend(why).Select(Any.Pack) },
    };

    [LoggerMessage(LogLevel.Error, "{Method} was refused by the store: {Why}")]
    private static partial void LogStore(ILogger log, string method, string why);

    [LoggerMessage(LogLevel.Error, "{Method} failed")]
    private static partial void LogFailure(ILogger log, Exception failure, string method);
}
