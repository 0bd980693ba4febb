using CableCatalog.Client.Failures;

namespace CableCatalog.Client.Output;

/// <summary>A file that a command writes its result to.</summary>
internal static class OutputFile
{
    /// <summary>Refuses a file that is there, unless it may be replaced; to be asked before any work is done for it.</summary>
    /// <exception cref="ClientFailure">It is there.</exception>
    public static void MustBeFree(string file, bool mayReplace)
    {
        if (File.Exists(file) && !mayReplace)
        {
            throw new ClientFailure(ExitCode.Refused, $"{file} exists; choose another name, or add --overwrite.");
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
