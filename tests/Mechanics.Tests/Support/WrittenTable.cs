namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>Tables of what the tests measured, kept in the repository for people to read.</summary>
/// <remarks>With the variable CABLECATALOG_WRITE_TABLES=1 they are written anew; read them before committing them.</remarks>
internal static class WrittenTable
{
    /// <summary>Asserts that a text is the one that is kept, or writes it where that is asked for.</summary>
    /// <param name="file">Its path from the folder of this test project.</param>
    /// <param name="text">What was computed.</param>
    public static void Matches(string file, string text)
    {
        string path = Path.Combine(Project(), file);
        if (Environment.GetEnvironmentVariable("CABLECATALOG_WRITE_TABLES") == "1")
        {
            File.WriteAllText(path, text);
        }

        Assert.Equal(File.ReadAllText(path), text);
    }

    private static string Project()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "CableCatalog.Mechanics.Tests.csproj")))
        {
            at = at.Parent;
        }

        return at!.FullName;
    }
}
