using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Requests;

/// <summary>The requests in a batch (AIP-234).</summary>
internal static class BatchParts
{
    private const int Most = 1000;

    // What a part leaves to its batch, and why.
    private static readonly (string Field, string Why)[] OfTheBatch =
    [
        ("request_id", "must be left out: the batch is one request and has its own"),
        (Origins.ValidateOnly, "must be left out: the batch is checked whole, and has its own"),
    ];

    /// <summary>Reads every part of a batch, so that the caller hears of all that are wrong.</summary>
    /// <typeparam name="TRequest">A part as it was sent.</typeparam>
    /// <typeparam name="TUpdate">A part as it is understood.</typeparam>
    /// <param name="requests">The parts.</param>
    /// <param name="resource">The field with what a part changes: "grade".</param>
    /// <param name="read">Reads a part; its second argument is the part's field path, with a dot after it.</param>
    /// <param name="idOf">Which resource a part changes.</param>
    /// <exception cref="InvalidRequestException">A part is wrong, there are none or too many, or two are for one resource.</exception>
    public static IReadOnlyList<TUpdate> Read<TRequest, TUpdate>(
        IReadOnlyCollection<TRequest> requests, string resource, Func<TRequest, string, TUpdate> read, Func<TUpdate, string> idOf)
        where TRequest : IMessage
        where TUpdate : class
    {
        if (requests.Count is 0 or > Most)
        {
            throw InvalidRequestException.For("requests", "BAD_COUNT", $"must be 1 to {Most}");
        }

        var violations = new Violations();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var updates = new List<TUpdate>();
        foreach ((int index, TRequest request) in requests.Index())
        {
            string prefix = $"requests[{index}].";
            TUpdate? update = violations.Try(() =>
            {
                Check(request, prefix);
                return read(request, prefix);
            });
            if (update is not null && !seen.Add(idOf(update)))
            {
                violations.Add($"{prefix}{resource}.name", "DUPLICATE", "must not be that of another request of the batch");
            }

            updates.AddRange(update is null ? [] : [update]);
        }

        violations.ThrowIfAny();
        return updates;
    }

    private static void Check(IMessage request, string prefix)
    {
        var violations = new Violations();
        foreach ((string name, string why) in OfTheBatch)
        {
            FieldDescriptor field = request.Descriptor.FindFieldByName(name);
            if (field.Accessor.GetValue(request) is true or string { Length: > 0 })
            {
                violations.Add(prefix + name, "EXCLUSIVE", why);
            }
        }

        violations.ThrowIfAny();
    }
}
