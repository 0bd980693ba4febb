using System.Diagnostics;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>How a call ended.</summary>
/// <param name="Status">Its status.</param>
/// <param name="Details">google.rpc.Status; null where there is none.</param>
/// <param name="Messages">The answers before it.</param>
/// <param name="Wall">How long it took.</param>
/// <param name="Cpu">How long this process worked meanwhile.</param>
internal sealed record RawAnswer(
    Status Status, Google.Rpc.Status? Details, IReadOnlyList<byte[]> Messages, TimeSpan Wall, TimeSpan Cpu);

/// <summary>Calls any rpc with bytes, whatever they say.</summary>
internal sealed class RawCalls : IDisposable
{
    // Streams that go on until somebody ends them; the first answers are enough.
    private static readonly string[] Endless = ["CatalogHistory/WatchRevisions"];
    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create<byte[]>(bytes => bytes, bytes => bytes);

    private readonly CallInvoker _invoker;
    private readonly IDisposable? _channel;
    private readonly Metadata _headers = [];

    /// <summary>Over a socket.</summary>
    public RawCalls(ServiceFixture service)
    {
        var channel = GrpcChannel.ForAddress(service.Address, new GrpcChannelOptions { MaxReceiveMessageSize = 64 << 20 });
        (_channel, _invoker) = (channel, channel.CreateCallInvoker());
        _headers.Add("authorization", $"Bearer {service.AdministratorKey}");
    }

    /// <summary>By whatever makes calls.</summary>
    public RawCalls(CallInvoker invoker) => _invoker = invoker;

    /// <summary>Makes a call.</summary>
    /// <param name="rpc">The rpc.</param>
    /// <param name="requests">Its request, or all of a stream.</param>
    /// <param name="most">The longest it may take.</param>
    public async Task<RawAnswer> MakeAsync(MethodDescriptor rpc, IReadOnlyList<byte[]> requests, TimeSpan most)
    {
        var options = new CallOptions(_headers, DateTime.UtcNow + most);
        var answers = new List<byte[]>();
        TimeSpan worked = Environment.CpuUsage.TotalTime;
        var watch = Stopwatch.StartNew();
        (Status status, Google.Rpc.Status? details) = (Status.DefaultSuccess, null);
        try
        {
            switch (rpc)
            {
                case { IsClientStreaming: true, IsServerStreaming: true }:
                    using (AsyncDuplexStreamingCall<byte[], byte[]> call =
                        _invoker.AsyncDuplexStreamingCall(MethodOf(rpc, MethodType.DuplexStreaming), null, options))
                    {
                        Task sending = SendAsync(call.RequestStream, requests);
                        await TakeAsync(call.ResponseStream, answers, int.MaxValue);
                        await sending;
                    }

                    break;
                case { IsClientStreaming: true }:
                    throw new NotSupportedException($"{rpc.FullName}: write here how a stream of requests with one answer is made.");
                case { IsServerStreaming: true }:
                    using (AsyncServerStreamingCall<byte[]> call =
                        _invoker.AsyncServerStreamingCall(MethodOf(rpc, MethodType.ServerStreaming), null, options, requests[0]))
                    {
                        await TakeAsync(call.ResponseStream, answers, Endless.Contains(Doors.Contract.ShortName(rpc)) ? 1 : int.MaxValue);
                    }

                    break;
                default:
                    answers.Add(await _invoker.AsyncUnaryCall(MethodOf(rpc, MethodType.Unary), null, options, requests[0]));
                    break;
            }
        }
        catch (RpcException failure)
        {
            (status, details) = (failure.Status, failure.GetRpcStatus());
        }

        return new RawAnswer(status, details, answers, watch.Elapsed, Environment.CpuUsage.TotalTime - worked);
    }

    public void Dispose() => _channel?.Dispose();

    private static Method<byte[], byte[]> MethodOf(MethodDescriptor rpc, MethodType type) =>
        new(type, rpc.Service.FullName, rpc.Name, Bytes, Bytes);

    private static async Task TakeAsync(IAsyncStreamReader<byte[]> answers, List<byte[]> taken, int most)
    {
        while (taken.Count < most && await answers.MoveNext(CancellationToken.None))
        {
            taken.Add(answers.Current);
        }
    }

    private static async Task SendAsync(IClientStreamWriter<byte[]> stream, IEnumerable<byte[]> requests)
    {
        try
        {
            foreach (byte[] request in requests)
            {
                await stream.WriteAsync(request);
            }

            await stream.CompleteAsync();
        }
        catch (Exception ended) when (ended is RpcException or InvalidOperationException)
        {
            // The call is over; its status says why.
        }
    }
}
