namespace CableCatalog.Client.Tests.Commands;

/// <summary>Files of the repository that the tests read.</summary>
internal static class Repository
{
    /// <summary>The demo installations.</summary>
    public static readonly string[] Installations =
        ["dunlin-shift", "dunlin-throttle", "plover-deflector", "plover-stern-station"];

    private static readonly string Root = FindRoot();

    /// <summary>A file by its path from the root.</summary>
    public static string At(params string[] path) => Path.Combine([Root, .. path]);

    /// <summary>A demo installation.</summary>
    public static string Demo(string name) => At("catalog-demo", name + ".yaml");

    private static string FindRoot()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "CableCatalog.sln")))
        {
            at = at.Parent;
        }

        return at!.FullName;
    }
}
