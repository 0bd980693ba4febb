namespace CableCatalog.Benchmarks;

/// <summary>Where the project is.</summary>
internal static class Repository
{
    /// <summary>Its top folder.</summary>
    public static string Root
    {
        get
        {
            string? folder = AppContext.BaseDirectory;
            while (folder is not null && !File.Exists(Path.Combine(folder, "CableCatalog.sln")))
            {
                folder = Path.GetDirectoryName(folder);
            }

            return folder ?? throw new InvalidOperationException("run the benchmarks from the project's folder");
        }
    }
}
