using CableCatalog.Client.Files;
using CableCatalog.Client.Tests.Commands;

namespace CableCatalog.Client.Tests.Files;

/// <summary>What the README says of options and price lists can be copied from it.</summary>
public class ReadmeTests
{
    private static readonly string Readme = File.ReadAllText(Repository.At("README.md"));

    [Fact]
    public void Its_price_list_is_one() => Assert.Empty(DealerPriceFile.Parse("README.md", Block("csv")).Problems);

    [Fact]
    public void Its_loads_and_changes_go_into_an_installation()
    {
        string boat = File.ReadAllText(Repository.Demo("plover-options"));
        string upToLoads = boat[..boat.IndexOf("loads:", StringComparison.Ordinal)];

        FileResult<InstallationDocument> read = InstallationFile.Parse(
            "README.md", upToLoads + Block("yaml", after: "force range:") + "present cable: { friction: 0.17 }\n");

        Assert.Empty(read.Problems);
        Assert.Equal((2, 4), (read.Value!.Message.LoadCases.Count, read.Value.Message.Changes.Count));
    }

    // The block that holds some words, or the first.
    private static string Block(string language, string after = "")
    {
        int within = Readme.IndexOf(after, StringComparison.Ordinal);
        string fence = $"```{language}\n";
        int start = after.Length > 0
            ? Readme.LastIndexOf(fence, within, StringComparison.Ordinal)
            : Readme.IndexOf(fence, StringComparison.Ordinal);
        start += fence.Length;
        return Readme[start..Readme.IndexOf("```", start, StringComparison.Ordinal)];
    }
}
