using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>What the log says of the service as a whole.</summary>
internal static partial class HostLog
{
    [LoggerMessage(
        LogLevel.Information, "Serving {Grades} grades of {Store} at revision {Revision} on {Address}, JSON on {JsonAddress}")]
    public static partial void LogServing(this ILogger log, int grades, string store, long revision, string address, string jsonAddress);

    [LoggerMessage(LogLevel.Information, "Stopping {Address} at revision {Revision} of {Store}; calls have {DrainSeconds} s to finish")]
    public static partial void LogStopping(this ILogger log, string address, long revision, string store, double drainSeconds);

    [LoggerMessage(LogLevel.Information, "Stopped {Address} after {Seconds} s")]
    public static partial void LogStopped(this ILogger log, string address, double seconds);

    [LoggerMessage(LogLevel.Warning, "{Address} was stopped before every call was finished: {DrainSeconds} s were over")]
    public static partial void LogCut(this ILogger log, string address, double drainSeconds);
}
