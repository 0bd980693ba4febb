using CableCatalog.Client.Files;

namespace CableCatalog.Client.Failures;

/// <summary>A command cannot go on. The lines are for people.</summary>
internal sealed class ClientFailure(ExitCode code, params IEnumerable<string> lines) : Exception(string.Join('\n', lines))
{
    /// <summary>What the process tells scripts.</summary>
    public ExitCode Code { get; } = code;

    /// <summary>The problems of a file.</summary>
    public static ClientFailure Of(IEnumerable<FileProblem> problems) =>
        new(ExitCode.BadInput, problems.Select(problem => problem.ToString()));
}
