using System.Buffers.Binary;
using System.Globalization;
using System.Net.Http.Headers;
using Google.Protobuf;
using Google.Rpc;

namespace CableCatalog.Service.Tests.Failures;

/// <summary>A call on the bare wire, where no client's library ends it by itself.</summary>
internal static class RawCall
{
    /// <summary>Makes it.</summary>
    /// <param name="service">The service.</param>
    /// <param name="method">"cablecatalog.v1.GradeCatalog/GetGrade".</param>
    /// <param name="message">The request.</param>
    /// <param name="timeout">As gRPC writes it: "50m" for 50 ms; null: none.</param>
    /// <param name="trace">A trace id, 32 hexadecimal digits, to know the call by in the server; null: none.</param>
    /// <returns>The status: of an answer, code 0; without details where there are none.</returns>
    public static async Task<Status> MakeAsync(
        ServiceFixture service, string method, IMessage message, string? timeout = null, string? trace = null)
    {
        using var client = new HttpClient(new SocketsHttpHandler { ActivityHeadersPropagator = null });
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"{service.Address}/{method}"))
        {
            Version = new Version(2, 0),
            VersionPolicy = HttpVersionPolicy.RequestVersionExact,
            Content = new ByteArrayContent(Framed(message)),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/grpc");
        request.Headers.TE.ParseAdd("trailers");
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", service.AdministratorKey);
        if (timeout is not null)
        {
            request.Headers.Add("grpc-timeout", timeout);
        }

        if (trace is not null)
        {
            request.Headers.Add("traceparent", $"00-{trace}-00f067aa0ba902b7-01");
        }

        using HttpResponseMessage response = await client.SendAsync(request);
        await response.Content.ReadAsByteArrayAsync();
        HttpResponseHeaders trailers = response.Headers.Contains("grpc-status") ? response.Headers : response.TrailingHeaders;
        int code = int.Parse(trailers.GetValues("grpc-status").Single(), CultureInfo.InvariantCulture);
        if (!trailers.TryGetValues("grpc-status-details-bin", out IEnumerable<string>? details))
        {
            return new Status { Code = code };
        }

        string text = details.Single();
        return Status.Parser.ParseFrom(Convert.FromBase64String(text.PadRight((text.Length + 3) / 4 * 4, '=')));
    }

    private static byte[] Framed(IMessage message)
    {
        byte[] framed = new byte[5 + message.CalculateSize()];
        BinaryPrimitives.WriteInt32BigEndian(framed.AsSpan(1), framed.Length - 5);
        message.WriteTo(framed.AsSpan(5));
        return framed;
    }
}
