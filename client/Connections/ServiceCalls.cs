using System.Net.Http.Headers;
using CableCatalog.Service.Hosting;

namespace CableCatalog.Client.Connections;

/// <summary>Sends the key with every call, and tells a person once when the service answers from what it last knew.</summary>
internal sealed class ServiceCalls(string? key, TextWriter notices) : DelegatingHandler
{
    private int _told;

    /// <inheritdoc/>
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (key is not null)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }

        HttpResponseMessage response = await base.SendAsync(request, cancellationToken);
        if (response.Headers.TryGetValues(StaleNotice.Header, out IEnumerable<string>? since)
            && Interlocked.Exchange(ref _told, 1) == 0)
        {
            await notices.WriteLineAsync(
                $"Note: the service is cut off from its database; this is the catalogue as it knew it at {since.First()}.");
        }

        return response;
    }
}
