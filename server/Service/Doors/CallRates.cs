using System.Threading.RateLimiting;

namespace CableCatalog.Service.Doors;

/// <summary>How many calls each caller may make: as many a second for long as is set, and ten times as many at once.</summary>
internal sealed class CallRates : IDisposable
{
    private const int Burst = 10;

    private readonly PartitionedRateLimiter<string> _limiter;

    /// <summary>Makes them.</summary>
    /// <param name="callsPerSecond">For long.</param>
    public CallRates(int callsPerSecond) => _limiter = PartitionedRateLimiter.Create<string, string>(
        caller => RateLimitPartition.GetTokenBucketLimiter(caller, _ => new TokenBucketRateLimiterOptions
        {
            TokenLimit = callsPerSecond * Burst,
            TokensPerPeriod = callsPerSecond,
            ReplenishmentPeriod = TimeSpan.FromSeconds(1),
            QueueLimit = 0,
        }));

    /// <summary>Counts a call.</summary>
    /// <param name="caller">Whose.</param>
    /// <returns>How long to wait before the next; null where it may be made now.</returns>
    public TimeSpan? Count(string caller)
    {
        using RateLimitLease lease = _limiter.AttemptAcquire(caller);
        return lease.IsAcquired ? null : lease.TryGetMetadata(MetadataName.RetryAfter, out TimeSpan wait) ? wait : TimeSpan.FromSeconds(1);
    }

    /// <inheritdoc/>
    public void Dispose() => _limiter.Dispose();
}
