using CableCatalog.Client.Files;

namespace CableCatalog.Client.Output;

/// <summary>What became of one installation of a batch.</summary>
/// <param name="Entry">The installation.</param>
/// <param name="Quote">Its quote; null where there is none.</param>
/// <param name="Problems">Why there is none, a line each.</param>
internal sealed record BatchOutcome(BatchEntry Entry, QuotedControl? Quote, IReadOnlyList<string> Problems);
