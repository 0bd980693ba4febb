namespace CableCatalog.Service.Requests;

/// <summary>The requests in a batch.</summary>
internal static class BatchParts
{
    /// <summary>Refuses what a part leaves to its batch.</summary>
    /// <param name="prefix">The field path of the part, with a dot after it.</param>
    /// <param name="requestId">Its request_id.</param>
    /// <param name="validateOnly">Its validate_only.</param>
    /// <exception cref="InvalidRequestException">It says any of it.</exception>
    public static void Check(string prefix, string requestId, bool validateOnly)
    {
        var violations = new Violations();
        if (requestId.Length > 0)
        {
            violations.Add($"{prefix}request_id", "EXCLUSIVE", "must be left out: the batch is one request and has its own");
        }

        if (validateOnly)
        {
            violations.Add($"{prefix}validate_only", "EXCLUSIVE", "must be left out: the batch is checked whole, and has its own");
        }

        violations.ThrowIfAny();
    }
}
