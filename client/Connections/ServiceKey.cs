using System.CommandLine;
using CableCatalog.Client.Commands;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Connections;

/// <summary>The key to a service: from a file or a variable, never from the command line, which other users can see.</summary>
internal static class ServiceKey
{
    /// <summary>The key that the command line and the environment give; null where they give none.</summary>
    /// <exception cref="ClientFailure">The file cannot be read or holds none.</exception>
    public static string? Of(ParseResult parsed, CommonOptions options, Terminal terminal)
    {
        if (parsed.GetValue(options.KeyFile) is not { } file)
        {
            return terminal.Variable(CommonOptions.KeyVariable)?.Trim() is { Length: > 0 } key ? Checked(key, CommonOptions.KeyVariable) : null;
        }

        try
        {
            return Checked(File.ReadAllText(file).Trim(), $"--key-file {file}");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new ClientFailure(ExitCode.BadInput, $"--key-file {file} cannot be read: {failure.Message}");
        }
    }

    // What is no key is not repeated: it may be a secret all the same.
    private static string Checked(string text, string where) =>
        text.Length is > 0 and <= 200 && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_')
            ? text
            : throw new ClientFailure(
                ExitCode.BadInput, $"{where}: one line with a key as keys create shows it is expected.");
}
