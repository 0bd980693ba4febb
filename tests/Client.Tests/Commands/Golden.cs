namespace CableCatalog.Client.Tests.Commands;

/// <summary>Texts that were read by eye and found good.</summary>
/// <remarks>With the variable CABLECATALOG_WRITE_GOLDEN=1 they are written anew; read them before committing them.</remarks>
internal static class Golden
{
    /// <summary>Asserts that a text is the golden one, or writes it where that is asked for.</summary>
    public static void Matches(string name, string text)
    {
        string file = Repository.At("tests", "Client.Tests", "Commands", "Golden", name + ".txt");
        if (Environment.GetEnvironmentVariable("CABLECATALOG_WRITE_GOLDEN") == "1")
        {
            File.WriteAllText(file, text);
        }

        Assert.Equal(File.ReadAllText(file), text);
    }
}
