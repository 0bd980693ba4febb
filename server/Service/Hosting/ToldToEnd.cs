using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>Ends when <see cref="CatalogHost.StopAsync()"/> says so. The framework's own listens to signals in each host, and would close
/// the ports before health has said anything.</summary>
internal sealed class ToldToEnd : IHostLifetime
{
    /// <inheritdoc/>
    public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}

/// <summary>How a host of one port ends.</summary>
internal static class Endings
{
    // That readiness fails while the service ends is no failure to log.
    private const string HealthLog = "Microsoft.Extensions.Diagnostics.HealthChecks";

    /// <summary>Makes it end when it is told to, and give what it has taken so long to finish.</summary>
    public static void EndWhenTold(this IServiceCollection services, SharedParts shared, TimeSpan drain) => services
        .AddSingleton<IHostLifetime, ToldToEnd>()
        .Configure<HostOptions>(host => host.ShutdownTimeout = drain)
        .AddLogging(log => log.AddFilter(HealthLog, level => level >= LogLevel.Warning && !shared.IsEnding));
}
