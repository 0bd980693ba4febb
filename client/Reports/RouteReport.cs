using CableCatalog.Client.Output;

namespace CableCatalog.Client.Reports;

/// <summary>A study of routes as a page.</summary>
internal static class RouteReport
{
    /// <summary>The text of the page.</summary>
    public static string Html(RouteStudy study, Figures figures) => throw new NotSupportedException($"{study} {figures}");
}
