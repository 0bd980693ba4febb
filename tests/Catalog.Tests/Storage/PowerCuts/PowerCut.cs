using System.Security.Cryptography;
using System.Text;

namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>What a power cut at one moment may leave.</summary>
/// <param name="How">What of the pending came to be on disk, for people.</param>
/// <param name="Files">The files, by path.</param>
internal sealed record PowerCut(string How, IReadOnlyDictionary<string, byte[]> Files)
{
    /// <summary>Nothing pending kept, all of it, either with every number of changed names and with all of them but one, and some
    /// by chance.</summary>
    internal static IEnumerable<PowerCut> At(DiskModel disk, Random random, int byChance)
    {
        for (int names = 0; names <= disk.PendingNames; names++)
        {
            int kept = names;
            yield return new PowerCut($"{kept} names, no data", disk.AfterCut(i => i < kept, file => file.Dropped()));
            yield return new PowerCut($"{kept} names, all data", disk.AfterCut(i => i < kept, file => file.Kept()));
        }

        for (int lost = 0; lost < disk.PendingNames - 1; lost++)
        {
            int but = lost;
            yield return new PowerCut($"all names but {but}, no data", disk.AfterCut(i => i != but, file => file.Dropped()));
            yield return new PowerCut($"all names but {but}, all data", disk.AfterCut(i => i != but, file => file.Kept()));
        }

        for (int i = 0; i < byChance; i++)
        {
            int names = random.Next(disk.PendingNames + 1);
            bool inOrder = random.Next(2) == 0;
            yield return new PowerCut(
                inOrder ? $"{names} names, some data" : "some names, some data",
                disk.AfterCut(name => inOrder ? name < names : random.Next(2) == 0, file => file.Torn(random)));
        }
    }

    /// <summary>The same for the same files.</summary>
    internal string Hash()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach ((string path, byte[] content) in Files)
        {
            hash.AppendData(Encoding.UTF8.GetBytes($"{path} {content.Length}\n"));
            hash.AppendData(content);
        }

        return Convert.ToHexString(hash.GetHashAndReset());
    }

    /// <summary>Puts the files into a folder that is emptied first, as they stood below another.</summary>
    internal void WriteTo(string folder, string stoodBelow)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        Directory.CreateDirectory(folder);
        foreach ((string path, byte[] content) in Files)
        {
            string to = Path.Combine(folder, Path.GetRelativePath(stoodBelow, path));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.WriteAllBytes(to, content);
        }
    }
}
