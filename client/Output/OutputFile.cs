using CableCatalog.Client.Failures;

namespace CableCatalog.Client.Output;

/// <summary>A file that a command writes its result to.</summary>
internal static class OutputFile
{
    /// <summary>Refuses a file that is there, unless it may be replaced, and one in a folder that is not there; to be asked
    /// before any work is done for it.</summary>
    /// <exception cref="ClientFailure">It is there, or its folder is not.</exception>
    public static void MustBeFree(string file, bool mayReplace)
    {
        if (File.Exists(file) && !mayReplace)
        {
            throw new ClientFailure(ExitCode.Refused, $"{file} exists; choose another name, or add --overwrite.");
        }

        if (Path.GetDirectoryName(file) is { Length: > 0 } folder && !Directory.Exists(folder))
        {
            throw new ClientFailure(ExitCode.Refused, $"there is no folder {folder}: make it first or name another.");
        }
    }

    /// <summary>Writes it beside and renames it, so that a failure leaves whatever was there.</summary>
    /// <exception cref="ClientFailure">It cannot be written.</exception>
    public static void Write(string file, Action<TextWriter> write)
    {
        string beside = file + ".part";
        try
        {
            using (var writer = new StreamWriter(beside))
            {
                write(writer);
            }

            File.Move(beside, file, overwrite: true);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            // In a folder that is missing there is nothing to delete, and deleting would fail.
            if (File.Exists(beside))
            {
                File.Delete(beside);
            }

            throw new ClientFailure(ExitCode.Refused, $"{file} cannot be written: {failure.Message}");
        }
    }
}
