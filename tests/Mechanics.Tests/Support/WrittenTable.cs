namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>Tables of what the tests measured, kept in the repository for people to read.</summary>
/// <remarks>With the variable CABLECATALOG_WRITE_TABLES=1 they are written anew; read them before committing them.</remarks>
internal static class WrittenTable
{
    /// <summary>Whether tables are to be written anew.</summary>
    public static bool IsAskedFor => Environment.GetEnvironmentVariable("CABLECATALOG_WRITE_TABLES") == "1";

    /// <summary>Asserts that a text is the one that is kept, or writes it where that is asked for.</summary>
    /// <param name="file">Its path from the folder of this test project.</param>
    /// <param name="text">What was computed.</param>
    public static void Matches(string file, string text)
    {
        if (IsAskedFor)
        {
            Write(file, text);
        }

        Assert.Equal(Read(file), text);
    }

    /// <summary>The table that is kept.</summary>
    public static string Read(string file) => File.ReadAllText(Path.Combine(Project(), file));

    /// <summary>Keeps a table.</summary>
    public static void Write(string file, string text) => File.WriteAllText(Path.Combine(Project(), file), text);

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
