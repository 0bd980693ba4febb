using System.Diagnostics;

namespace CableCatalog.Client.Tests.Reports;

/// <summary>A real browser, without a window.</summary>
internal static class Chromium
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    /// <summary>Opens a file and does one thing with it.</summary>
    /// <param name="file">The page.</param>
    /// <param name="what">Arguments that say what.</param>
    /// <returns>What it wrote.</returns>
    public static async Task<string> OpenAsync(string file, params string[] what)
    {
        DirectoryInfo profile = Directory.CreateTempSubdirectory("cablecatalog-browser-");
        var start = new ProcessStartInfo(Find())
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        string[] quiet =
        [
            "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-component-update",
            "--disable-background-networking", "--disable-sync", "--hide-scrollbars", $"--user-data-dir={profile.FullName}",
        ];
        foreach (string argument in (string[])[.. quiet, .. what, new Uri(file).AbsoluteUri])
        {
            start.ArgumentList.Add(argument);
        }

        using Process browser = Process.Start(start)!;
        try
        {
            Task<string> error = browser.StandardError.ReadToEndAsync();
            string output = await browser.StandardOutput.ReadToEndAsync().WaitAsync(Patience);
            await browser.WaitForExitAsync().WaitAsync(Patience);
            Assert.True(browser.ExitCode == 0, await error);
            return output;
        }
        finally
        {
            if (!browser.HasExited)
            {
                browser.Kill(entireProcessTree: true);
                await browser.WaitForExitAsync();
            }

            Forget(profile);
        }
    }

    // A helper of the browser may outlive it for a moment and write there still.
    private static void Forget(DirectoryInfo profile)
    {
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                profile.Delete(recursive: true);
                return;
            }
            catch (IOException) when (attempt < 20)
            {
                Thread.Sleep(100);
            }
        }
    }

    private static string Find()
    {
        string[] names = ["chromium", "chromium-browser", "google-chrome"];
        string? found = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .SelectMany(folder => names.Select(name => Path.Combine(folder, name)))
            .FirstOrDefault(File.Exists);
        Assert.True(
            found is not null,
            "No browser was found on PATH: the tests of reports open them in Chromium. "
                + "Install it (Debian: apt-get install chromium).");
        return found!;
    }
}
