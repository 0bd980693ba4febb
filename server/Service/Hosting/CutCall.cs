using Microsoft.AspNetCore.Connections;

namespace CableCatalog.Service.Hosting;

/// <summary>A call whose connection ended while it was read or answered: because its caller went away, or because the time to finish
/// was over. No failure of the service.</summary>
internal static class CutCall
{
    /// <summary>Whether a failure is that.</summary>
    public static bool Is(Exception failure) => failure is ConnectionAbortedException or ConnectionResetException
        or (IOException or OperationCanceledException) and { InnerException: ConnectionAbortedException or ConnectionResetException };
}
