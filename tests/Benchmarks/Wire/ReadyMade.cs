using System.Diagnostics;
using System.Globalization;
using CableCatalog.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>The yardstick of the wire: calls that read the same requests and answer with the same bytes, made beforehand.</summary>
[BindServiceMethod(typeof(ReadyMadeBase), nameof(Bind))]
internal abstract class ReadyMadeBase
{
    /// <summary>See <see cref="One"/>.</summary>
    public static readonly Method<ScoreGradesRequest, byte[]> OneMethod = new(
        MethodType.Unary, "benchmarks.ReadyMade", nameof(ReadyMade.One), Of(ScoreGradesRequest.Parser), Bytes);

    /// <summary>See <see cref="Many"/>.</summary>
    public static readonly Method<ScoreInstallationsRequest, byte[]> ManyMethod = new(
        MethodType.DuplexStreaming, "benchmarks.ReadyMade", nameof(ReadyMade.Many), Of(ScoreInstallationsRequest.Parser), Bytes);

    /// <summary>The same as a caller sees them: it reads the messages.</summary>
    public static readonly Method<ScoreGradesRequest, ScoreGradesResponse> OneForClients = new(
        MethodType.Unary, "benchmarks.ReadyMade", nameof(ReadyMade.One), Of(ScoreGradesRequest.Parser), Of(ScoreGradesResponse.Parser));

    /// <summary>The same of a stream.</summary>
    public static readonly Method<ScoreInstallationsRequest, ScoreInstallationsResponse> ManyForClients = new(
        MethodType.DuplexStreaming,
        "benchmarks.ReadyMade",
        nameof(ReadyMade.Many),
        Of(ScoreInstallationsRequest.Parser),
        Of(ScoreInstallationsResponse.Parser));

    private static Marshaller<byte[]> Bytes => Marshallers.Create(bytes => bytes, bytes => bytes);

    /// <summary>Binds the calls; the host finds the methods by their names.</summary>
    public static void Bind(ServiceBinderBase binder, ReadyMadeBase? service)
    {
        binder.AddMethod(OneMethod, service is null ? null! : service.One);
        binder.AddMethod(ManyMethod, service is null ? null! : service.Many);
    }

    /// <summary>One answer for one request.</summary>
    public abstract Task<byte[]> One(ScoreGradesRequest request, ServerCallContext context);

    /// <summary>One answer for each request of a stream.</summary>
    public abstract Task Many(
        IAsyncStreamReader<ScoreInstallationsRequest> requests, IServerStreamWriter<byte[]> responses, ServerCallContext context);

    private static Marshaller<T> Of<T>(MessageParser<T> parser)
        where T : IMessage<T> => Marshallers.Create(
        (message, context) =>
        {
            context.SetPayloadLength(message.CalculateSize());
            message.WriteTo(context.GetBufferWriter());
            context.Complete();
        },
        context => parser.ParseFrom(context.PayloadAsReadOnlySequence()));
}

/// <inheritdoc/>
internal sealed class ReadyMade : ReadyMadeBase
{
    /// <summary>The header that says how long to keep a core at work before the answer, us: where nothing is to do the caller's thread does
    /// not go to sleep, and need not be woken.</summary>
    public const string AtWorkUs = "at-work-us";

    /// <summary>The answers: to one request, and to each of a stream.</summary>
    public static (byte[] One, byte[] EachOfMany) Answers { get; set; }

    /// <inheritdoc/>
    public override Task<byte[]> One(ScoreGradesRequest request, ServerCallContext context)
    {
        if (context.RequestHeaders.GetValue(AtWorkUs) is { } us)
        {
            long start = Stopwatch.GetTimestamp();
            double mostUs = double.Parse(us, CultureInfo.InvariantCulture);
            while (Stopwatch.GetElapsedTime(start).TotalMicroseconds < mostUs)
            {
            }
        }

        return Task.FromResult(Answers.One);
    }

    /// <inheritdoc/>
    public override async Task Many(
        IAsyncStreamReader<ScoreInstallationsRequest> requests, IServerStreamWriter<byte[]> responses, ServerCallContext context)
    {
        while (await requests.MoveNext(context.CancellationToken))
        {
            await responses.WriteAsync(Answers.EachOfMany);
        }
    }
}
