using System.Security.Cryptography;

namespace CableCatalog.Catalog.Storage;

/// <summary>Checks a <see cref="CatalogSeal"/> line by line.</summary>
internal sealed class SealCheck : IDisposable
{
    private readonly CatalogSeal _seal;
    private readonly IncrementalHash? _inOrder;
    private LineSum _sum;

    internal SealCheck(CatalogSeal seal)
    {
        _seal = seal;
        if (seal.Sha256 is not null)
        {
            _inOrder = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            _inOrder.AppendData(CatalogText.LineOf(seal.Header));
        }
    }

    /// <summary>Whether the lines added and no others are those of the seal.</summary>
    internal bool Holds => _inOrder is null
        ? _seal.Sum == _sum
        : _seal.Sha256 == Convert.ToHexStringLower(_inOrder.GetCurrentHash());

    /// <summary>Adds the line of something that the catalogue holds, in order of kind and id.</summary>
    internal void Add(string line)
    {
        byte[] bytes = CatalogText.LineOf(line);
        if (_inOrder is null)
        {
            _sum += LineSum.Of(bytes);
        }
        else
        {
            _inOrder.AppendData(bytes);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _inOrder?.Dispose();
}
