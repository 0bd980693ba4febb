using System.Collections;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.Core;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>What every answer must be, whatever was asked: the comment of service GradeCatalog says so for all.</summary>
internal static class Promises
{
    // Of those that are documented, the ones that a sound store on a sound disk has.
    private static readonly StatusCode[] Documented =
    [
        StatusCode.OK, StatusCode.InvalidArgument, StatusCode.NotFound, StatusCode.AlreadyExists, StatusCode.Aborted,
        StatusCode.FailedPrecondition, StatusCode.ResourceExhausted,
    ];

    // Details travel in trailers, which clients cap at 8 to 16 KiB, as base64 and beside a message.
    private const int MostDetailsBytes = 5500;

    /// <summary>What is wrong with an answer.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="type">What each message of it is.</param>
    public static IEnumerable<string> Broken(RawAnswer answer, MessageDescriptor type)
    {
        if (answer.Status.StatusCode != StatusCode.OK)
        {
            foreach (string wrong in BrokenBy(answer.Status.StatusCode, answer.Details))
            {
                yield return $"{wrong} ({answer.Status.Detail})";
            }
        }

        foreach (string wrong in answer.Messages.SelectMany(message => MessageMaker.PartsOf(type.Parser.ParseFrom(message)).SelectMany(Broken)))
        {
            yield return wrong;
        }
    }

    /// <summary>What is wrong with a refusal.</summary>
    public static IEnumerable<string> BrokenBy(StatusCode code, Google.Rpc.Status? details)
    {
        if (!Documented.Contains(code))
        {
            yield return $"{code} is not documented";
        }

        if (details?.GetDetail<ErrorInfo>() is not { Reason.Length: > 0, Domain: "cablecatalog.example" })
        {
            yield return $"{code} says no reason";
        }

        if (details?.Message is null or "" || details.Message.Contains("Exception", StringComparison.Ordinal)
            || details.Message.Contains("   at ", StringComparison.Ordinal))
        {
            yield return $"{code} is not for people: {details?.Message}";
        }

        if (details?.CalculateSize() > MostDetailsBytes)
        {
            yield return $"{code} has {details.CalculateSize()} bytes of details";
        }

        if (details?.GetDetail<BadRequest>() is { } bad
            && (bad.FieldViolations.Count is < 1 or > 20 || bad.FieldViolations.Any(one => one.Description.Length == 0)))
        {
            yield return $"{bad.FieldViolations.Count} violations, one without a description";
        }
    }

    // A cable that locks is an absent field and never an infinite number.
    private static IEnumerable<string> Broken(IMessage part)
    {
        if (part is Google.Rpc.Status { Code: not 0 } refusal)
        {
            return BrokenBy((StatusCode)refusal.Code, refusal);
        }

        return part.Descriptor.Fields.InDeclarationOrder()
            .Where(field => field.FieldType == FieldType.Double)
            .Where(field => (field.Accessor.GetValue(part) is IList many ? many.Cast<double>() : [(double)field.Accessor.GetValue(part)])
                .Any(number => !double.IsFinite(number)))
            .Select(field => $"{field.FullName} is not finite");
    }
}
