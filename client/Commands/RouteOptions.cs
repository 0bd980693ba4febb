using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;

namespace CableCatalog.Client.Commands;

/// <summary>--route: other ways for the cable of an installation, each from a file.</summary>
internal static class RouteOptions
{
    /// <summary>Adds the routes of files to the other routes of an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="installationFile">Its file as the person named it.</param>
    /// <param name="routeFiles">The files; each with a route by itself, or one for this installation.</param>
    /// <exception cref="ClientFailure">A file is not one, or of another installation.</exception>
    public static void AddTo(InstallationDocument installation, string installationFile, IEnumerable<string> routeFiles)
    {
        foreach (string file in routeFiles)
        {
            FileResult<RouteDocument> read = RouteFile.Read(file);
            RouteDocument document = read.Value ?? throw ClientFailure.Of(read.Problems);
            if (document.Route is not { } route)
            {
                throw new ClientFailure(ExitCode.BadInput, $"--route {file}: this is an installation; name a file with one route.");
            }

            string path = Path.GetFullPath(installationFile);
            if (document.InstallationPath is { } other && other != path)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, $"--route {file}: it is a route of {other} and not of {path}; name another, or that installation.");
            }

            installation.Sources.Add($"other_routes[{installation.Message.OtherRoutes.Count}]", document.RouteSources!);
            installation.Message.OtherRoutes.Add(route);
        }
    }
}
